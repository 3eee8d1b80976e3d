/** What the reading of a strip and its bar across say together of the lens itself. */
import type { Estimate } from '../../core/mend/counts.ts';
import { STRIP_RULER_SIGMA_MM } from '../../core/mend/counts.ts';
import { gapAhead } from '../../core/lens/traced.ts';
import type { PitchReading } from '../../core/pitch/reading.ts';
import type { Job } from '../schema/job.ts';
import type { WovenStrip } from '../schema/pitch.ts';
import { scaleOf } from './pitch.ts';
import { lensOf } from './sheet.ts';

/**
 * Lines of the lens to the true inch. The reading alone is in the print's own inches and cannot tell a coarse lens from
 * a stretched print; with the bar it can: LPI_lens = LPI_read (1 + g₀ / D) / s, s the bar measured over drawn
 * (relation 2).
 * @returns undefined while the bar across is not measured.
 */
export const lensByBar = (
  job: Job,
  strip: WovenStrip,
  { viewingLpi, plusMinusLpi }: PitchReading,
): Estimate | undefined => {
  const { across } = scaleOf(job, strip);
  if (across === undefined) return undefined;
  const perRead = (1 + gapAhead(lensOf(job)) / strip.readFromMm) / across.factor;
  const value = viewingLpi * perRead;
  const byRuler = (2 * STRIP_RULER_SIGMA_MM) / (strip.barAcrossMm * across.factor);
  return { value, plusMinus: Math.hypot(plusMinusLpi * perRead, value * byRuler) };
};
