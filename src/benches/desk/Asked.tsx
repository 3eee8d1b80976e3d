/** What the desk asks a person, loaded when there is something to ask. */
import { Suspense, useState } from 'react';
import { useJobKey, useView, useWork } from '../studio.ts';
import { latePart } from './late-part.tsx';
import { useIsAsking } from './use-asking.ts';

const FirstSheet = latePart(() => import('./FirstAsk.tsx'));
const Question = latePart(() => import('./DropQuestion.tsx'));

/** Once begun it stays until the person is done with it, however much is given by then. */
const Asking = () => {
  const isAsking = useIsAsking();
  const folded = useView((view) => view.askFolded);
  const [began, setBegan] = useState(false);
  if (isAsking && !began) setBegan(true);
  return <Suspense>{(isAsking || (began && !folded)) && <FirstSheet />}</Suspense>;
};

/** Lens, printer, size and distance of a person's first job. */
export const FirstAsk = () => <Asking key={useJobKey()} />;

/** What is to be done with files that came while a job was open. */
export const DropQuestion = () => {
  const question = useWork((work) => work.dropQuestion);
  return <Suspense>{question !== undefined && <Question {...question} />}</Suspense>;
};
