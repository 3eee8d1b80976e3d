import { useMemo } from 'react';
import type { Way, WayFacts } from '../../job/facts/way.ts';
import type { Job } from '../../job/schema/job.ts';
import type { FileState } from '../../state/tasks.ts';
import { useDocument, useJob, useTask, useView, useWork } from '../studio.ts';
import { useComing } from './use-coming.ts';

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

/** Loaded late: it contains every step of mounting, which the first view does not need. Without it the line stays empty. */
const load = async () => {
  const [{ wayOf }, { standingByMark }] = await Promise.all([
    import('../../job/facts/way.ts'),
    import('../../studio/weave/woven-marks.ts'),
  ]);
  return { wayOf, standingByMark };
};

/** What the open job needs next, and what it needs of each bench; undefined until there is a job. */
export const useWay = (): Way | undefined => {
  const loaded = useComing(load);
  const job = useJob();
  const jobId = useDocument((state) => state.jobId);
  const ready = useDocument((state) => state.ready);
  const lost = useWork((work) => work.missingOriginals.size);
  const coming = useWork((work) => work.arriving !== undefined);
  const mark = useView(({ wovenMarks }) => wovenMarks[jobId]);
  const ofThisVisit = useFile(job);
  return useMemo(() => {
    if (!ready || loaded === undefined) return undefined;
    const byMark = ofThisVisit === 'none' && mark !== undefined;
    const file = byMark ? loaded.standingByMark(mark, job) : ofThisVisit;
    return loaded.wayOf(job, { lost, coming, file });
  }, [loaded, ready, job, lost, coming, ofThisVisit, mark]);
};
