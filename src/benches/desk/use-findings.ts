import { useMemo } from 'react';
import { findings } from '../../job/findings/all.ts';
import type { Finding } from '../../job/findings/finding.ts';
import { useDocument, useJob, useWork } from '../studio.ts';

/** Findings of the job as it stands; none until there is a job. They take a while: ask once, and hand them down. */
export const useFindings = (): readonly Finding[] => {
  const job = useJob();
  const ready = useDocument((state) => state.ready);
  const prepareFaults = useWork((work) => work.prepareFaults);
  const arrivalNotes = useWork((work) => work.arrivalNotes);
  const pitchReadings = useWork((work) => work.pitchReadings);
  const parallax = useWork((work) => work.parallax);
  const wholeParallax = useWork((work) => work.wholeParallax);
  const ghostClipped = useWork((work) => work.ghostClipped);
  return useMemo(
    () =>
      ready
        ? findings(job, {
            prepareFaults,
            arrivalNotes,
            pitchReadings,
            parallax,
            wholeParallax,
            ghostClipped,
          })
        : [],
    [ready, job, prepareFaults, arrivalNotes, pitchReadings, parallax, wholeParallax, ghostClipped],
  );
};
