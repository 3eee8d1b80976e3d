/** Which strip is read, what each way of reading it says of the pitch, and which of them is believed. */
import type { PhotoReading } from '../../core/pitch/photo/photo.ts';
import type { BandReading } from '../../core/pitch/read-band.ts';
import { readBand } from '../../core/pitch/read-band.ts';
import type { FringeReading } from '../../core/pitch/read-fringes.ts';
import { readFringes } from '../../core/pitch/read-fringes.ts';
import type { PitchReading } from '../../core/pitch/reading.ts';
import type { LengthUnit } from '../../core/units/parse.ts';
import { readNumber } from '../../core/units/parse.ts';
import { mm, mmToInch } from '../../core/units/units.ts';
import type { Job } from '../schema/job.ts';
import type { WovenStrip } from '../schema/pitch.ts';
import { stripPlanOf, wovenOf } from './pitch.ts';

/**
 * The strip a reading speaks of: the one woven last, else the one the fields describe. Undefined when
 * neither can be. @param today ISO date.
 */
export const stripToRead = (
  job: Job,
  barsIn: LengthUnit,
  today: string,
): WovenStrip | undefined => {
  const woven = job.pitchStrip?.woven;
  if (woven !== undefined) return woven;
  const plan = stripPlanOf(job, barsIn);
  return plan.ok ? { ...wovenOf(job, plan.spec, today), assumed: true } : undefined;
};

/** Undefined until a band is chosen that this strip has. */
const bandReadingOf = (job: Job, strip: WovenStrip): BandReading | undefined => {
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

const photoReadingOf = (photo: PhotoReading | undefined): PitchReading | undefined =>
  photo?.ok === true
    ? {
        method: 'photo',
        viewingLpi: photo.pitchLpi,
        plusMinusLpi: 2 * photo.sigmaLpi,
        skewRad: photo.skewRad,
        skewPlusMinusRad: 2 * photo.skewSigmaRad,
      }
    : undefined;

interface StripReading extends PitchReading {
  /** True of a best band that is the first or the last: the true pitch may lie beyond it. */
  readonly atEnd?: boolean;
}

/**
 * What a strip says of the pitch; undefined until it says something. A photo comes before counted
 * fringes: it measures what is counted otherwise. Counted fringes come before the best band: they tell
 * the pitch between the bands as well. A photo or counts that tell no pitch leave it to the next.
 * @param photo what a photo of this very strip told, if there is one.
 */
export const stripReadingOf = (
  job: Job,
  strip: WovenStrip,
  photo: PhotoReading | undefined,
): StripReading | undefined => {
  const fringes = fringeReadingOf(job, strip);
  return (
    photoReadingOf(photo) ??
    (fringes?.ok === true ? fringes : undefined) ??
    bandReadingOf(job, strip)
  );
};
