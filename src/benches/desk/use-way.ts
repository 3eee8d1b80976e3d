import { useEffect, useMemo, useState } from 'react';
import type * as WayModule from '../../job/facts/way.ts';
import type { Way, WayFacts } from '../../job/facts/way.ts';
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

/** Loaded late: it contains every step of mounting, which the first view does not need. */
const useWayModule = () => {
  const [loaded, setLoaded] = useState<typeof WayModule>();
  useEffect(() => {
    import('../../job/facts/way.ts').then(
      setLoaded,
      // The line stays empty; whatever else cannot be loaded says so.
      () => undefined,
    );
  }, []);
  return loaded;
};

/** What the open job needs next, and what it needs of each bench; undefined until there is a job. */
export const useWay = (): Way | undefined => {
  const loaded = useWayModule();
  const job = useJob();
  const ready = useDocument((state) => state.ready);
  const lost = useWork((work) => work.missingOriginals.size);
  const coming = useWork((work) => work.arriving !== undefined);
  const file = useFile(job);
  return useMemo(
    () => (ready ? loaded?.wayOf(job, { lost, coming, file }) : undefined),
    [loaded, ready, job, lost, coming, file],
  );
};
