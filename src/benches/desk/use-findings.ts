import { useMemo } from 'react';
import type { Finding } from '../../job/findings/finding.ts';
import { findings } from '../../job/findings/all.ts';
import { useDocument, useJob, useTargets, useWork } from '../../state/hooks.ts';

/** Findings of the job as it stands; none until there is a job. */
export const useFindings = (): readonly Finding[] => {
  const job = useJob();
  const ready = useDocument((state) => state.ready);
  const prepareFaults = useWork((work) => work.prepareFaults);
  const arrivalNotes = useWork((work) => work.arrivalNotes);
  const pitchReadings = useWork((work) => work.pitchReadings);
  const parallax = useWork((work) => work.parallax);
  const wholeParallax = useWork((work) => work.wholeParallax);
  const ghostClipped = useTargets((targets) => targets.ghostClipped);
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
