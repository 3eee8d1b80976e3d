/** Which strip is read, and the pitch that each way of reading gives. */
import type { PhotoReading } from '../../core/pitch/photo/photo.ts';
import type { BandReading } from '../../core/pitch/read-band.ts';
import { readBand } from '../../core/pitch/read-band.ts';
import type { FringeCount, FringeReading } from '../../core/pitch/read-fringes.ts';
import { readFringes } from '../../core/pitch/read-fringes.ts';
import type { PitchReading } from '../../core/pitch/reading.ts';
import type { LengthUnit } from '../../core/units/parse.ts';
import { readNumber } from '../../core/units/parse.ts';
import { mm, mmToInch } from '../../core/units/units.ts';
import type { Job } from '../schema/job.ts';
import type { WovenStrip } from '../schema/pitch.ts';
import { stripPlanOf, wovenOf } from './pitch.ts';

/**
 * The strip that a reading is of: the one woven last, else the one that the fields describe. Undefined if
 * there is neither. @param today ISO date.
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

/** Undefined until one of this strip's bands is chosen. */
const bandReadingOf = (job: Job, strip: WovenStrip): BandReading | undefined => {
  const place = job.pitchStrip?.bestPlace;
  if (place === undefined || place > 2 * (strip.bandsLpi.length - 1)) return undefined;
  return readBand(strip.bandsLpi, place, mmToInch(mm(strip.acrossMm)));
};

const countsOf = (job: Job, strip: WovenStrip): FringeCount[] =>
  strip.bandsLpi.flatMap((bandLpi, band) => {
    const text = job.pitchStrip?.counts?.[band] ?? '';
    const read = readNumber(text);
    return text !== '' && read.ok ? [{ bandLpi, fringes: read.value }] : [];
  });

/** Undefined until something is counted. */
export const fringeReadingOf = (job: Job, strip: WovenStrip): FringeReading | undefined => {
  const counts = countsOf(job, strip);
  return counts.length === 0 ? undefined : readFringes(counts, mmToInch(mm(strip.acrossMm)));
};

export interface StripReading extends PitchReading {
  /** The best band is the first or the last: the true pitch may lie beyond it. */
  readonly atEnd?: boolean;
  /** The ± of a photo if the distance of its camera were typed; left out where it was. */
  readonly ifTypedLpi?: number;
  /** Bands that were counted. */
  readonly counted?: number;
}

const photoReadingOf = (photo: PhotoReading | undefined): StripReading | undefined =>
  photo?.ok === true
    ? {
        method: 'photo',
        viewingLpi: photo.pitchLpi,
        plusMinusLpi: 2 * photo.sigmaLpi,
        skewRad: photo.skewRad,
        skewPlusMinusRad: 2 * photo.skewSigmaRad,
        ...(photo.cameraFrom === 'typed' ? {} : { ifTypedLpi: 2 * photo.sigmaTypedLpi }),
      }
    : undefined;

const countedReadingOf = (job: Job, strip: WovenStrip): StripReading | undefined => {
  const fringes = fringeReadingOf(job, strip);
  return fringes?.ok === true ? { ...fringes, counted: countsOf(job, strip).length } : undefined;
};

/**
 * What the strip gives, by each way that it was read.
 * @param photo the reading of a photo of this strip, if there is one.
 */
export const stripReadingsOf = (
  job: Job,
  strip: WovenStrip,
  photo: PhotoReading | undefined,
): StripReading[] =>
  [photoReadingOf(photo), countedReadingOf(job, strip), bandReadingOf(job, strip)].filter(
    (one) => one !== undefined,
  );
