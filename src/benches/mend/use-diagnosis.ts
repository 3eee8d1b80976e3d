/** What the counts say of the print on the table; a count that cannot be is told, not thrown. */
import { useMemo } from 'react';
import type { Diagnosis } from '../../job/facts/mend.ts';
import { diagnose, seeingOf } from '../../job/facts/mend.ts';
import { parallaxFactsOf } from '../../job/facts/parallax.ts';
import { useJob, useWork } from '../studio.ts';

/** Of what was measured; the eye forgives less (ours). */
const TOO_MUCH_BROKEN = 0.05;

export const useDiagnosis = (): Diagnosis | undefined => {
  const job = useJob();
  const measured = useWork((work) => work.wholeParallax);
  return useMemo(() => {
    if (job.seeing === undefined) return undefined;
    const spread = parallaxFactsOf(job, measured)?.spread;
    return diagnose(
      seeingOf(job),
      spread === undefined ? {} : { tooDeep: spread.broken > TOO_MUCH_BROKEN },
    );
  }, [job, measured]);
};
