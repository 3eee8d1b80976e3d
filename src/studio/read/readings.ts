/** What the job's entries say of the pitch, ready to be shown. */
import { readBand } from '../../core/pitch/read-band.ts';
import type { FringeReading } from '../../core/pitch/read-fringes.ts';
import { readFringes } from '../../core/pitch/read-fringes.ts';
import type { BandReading } from '../../core/pitch/read-band.ts';
import { readNumber } from '../../core/units/parse.ts';
import { mm, mmToInch } from '../../core/units/units.ts';
import type { Job } from '../../job/schema/job.ts';
import type { WovenStrip } from '../../job/schema/pitch.ts';

/** Undefined until a band is chosen that this strip has. */
export const bandReadingOf = (job: Job, strip: WovenStrip): BandReading | undefined => {
  const place = job.pitchStrip?.bestPlace;
  if (place === undefined || place > 2 * (strip.bandsLpi.length - 1)) return undefined;
  return readBand(strip.bandsLpi, place, mmToInch(mm(strip.acrossMm)));
};

/** Undefined until something is counted. */
export const fringeReadingOf = (job: Job, strip: WovenStrip): FringeReading | undefined => {
  const counts = strip.bandsLpi.flatMap((bandLpi, band) => {
    const text = job.pitchStrip?.counts?.[band] ?? '';
    const read = readNumber(text);
    return text !== '' && read.ok ? [{ bandLpi, fringes: read.value }] : [];
  });
  return counts.length === 0 ? undefined : readFringes(counts, mmToInch(mm(strip.acrossMm)));
};
