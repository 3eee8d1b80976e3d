import { useMemo } from 'react';
import type { WayFacts, WayStep } from '../../job/facts/way.ts';
import { wayOf } from '../../job/facts/way.ts';
import type { Job } from '../../job/schema/job.ts';
import type { FileState } from '../../state/tasks.ts';
import { useDocument, useJob, useTask, useWork } from '../studio.ts';

const standingOf = (state: FileState): WayFacts['file'] => {
  if (state.stage === 'weaving') return 'weaving';
  if (state.stage !== 'woven') return 'none';
  return state.stale ? 'stale' : 'woven';
};

const useFile = ({ tiles, gang }: Job): WayFacts['file'] => {
  const states = { sheet: useTask('sheet'), tiles: useTask('tiles'), several: useTask('several') };
  return standingOf(
    tiles?.on === true ? states.tiles : gang?.on === true ? states.several : states.sheet,
  );
};

/** What the open job needs next; undefined until there is a job. */
export const useWay = (): WayStep | undefined => {
  const job = useJob();
  const ready = useDocument((state) => state.ready);
  const lost = useWork((work) => work.missingOriginals.size);
  const coming = useWork((work) => work.arriving !== undefined);
  const file = useFile(job);
  return useMemo(
    () => (ready ? wayOf(job, { lost, coming, file }) : undefined),
    [ready, job, lost, coming, file],
  );
};
