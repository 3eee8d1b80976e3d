/** What the desk asks a person, loaded when there is something to ask. */
import { Suspense, useEffect, useState } from 'react';
import { useJobKey, useView, useWork } from '../studio.ts';
import { latePart } from './late-part.tsx';
import { hasRoomToAsk, useIsAsking } from './use-asking.ts';
import { useBench } from './use-bench.ts';

const FirstSheet = latePart(() => import('./FirstAsk.tsx'));
const Question = latePart(() => import('./DropQuestion.tsx'));

/** Once begun it stays until the person is done with it, however much is given by then. */
const Asking = () => {
  const isAsking = useIsAsking();
  const stays = useView(({ askFolded, asking }) => (hasRoomToAsk() ? !askFolded : asking));
  const [began, setBegan] = useState(false);
  if (isAsking && !began) setBegan(true);
  const set = useView((view) => view.set);
  // Called for on a phone, it goes with its bench.
  useEffect(() => {
    if (hasRoomToAsk()) return undefined;
    return () => set({ asking: false });
  }, [set]);
  return <Suspense>{(isAsking || (began && stays)) && <FirstSheet />}</Suspense>;
};

/** Lens, printer, size and distance of a person's first job. */
export const FirstAsk = () => {
  const job = useJobKey();
  const { name } = useBench();
  return <Asking key={hasRoomToAsk() ? job : `${job} ${name}`} />;
};

/** What is to be done with files that came while a job was open. */
export const DropQuestion = () => {
  const question = useWork((work) => work.dropQuestion);
  return <Suspense>{question !== undefined && <Question {...question} />}</Suspense>;
};
