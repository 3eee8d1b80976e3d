/** The measures from a photo of a failed print, as an eye would count them. */
import type { MendPhotoReading } from '../../core/mend/photo/terms.ts';
import { LEAST_BANDS } from '../../core/mend/read-counts.ts';
import type { SeenCounts } from '../schema/trial.ts';

const hundredths = (value: number) => Math.round(value * 100) / 100;

/** How many bands there are, which way they run, and which way they lean. */
export const countsOfPhoto = ({
  pitch,
  skew,
}: Extract<MendPhotoReading, { ok: true }>): Partial<SeenCounts> => {
  const [across, along] = [pitch.bands.value, skew.bands.value];
  const counts = {
    bandsAcross: hundredths(Math.abs(across)),
    bandsAlong: hundredths(Math.abs(along)),
  };
  if (Math.abs(across) >= LEAST_BANDS)
    return {
      ...counts,
      run: across > 0 ? 'with' : 'against',
      lean: Math.abs(along) < LEAST_BANDS ? 'none' : across * along > 0 ? 'forth' : 'back',
    };
  return Math.abs(along) < LEAST_BANDS
    ? counts
    : { ...counts, run: along > 0 ? 'forth' : 'back', lean: 'none' };
};
