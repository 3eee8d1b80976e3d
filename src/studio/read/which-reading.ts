/** Which reading of a strip counts, and what would make it more exact. */
import { bandsToCount, countingGives } from '../../core/pitch/read-fringes.ts';
import type { ReadingMethod } from '../../core/pitch/reading.ts';
import { trimmed } from '../../core/units/format.ts';
import { mm, mmToInch } from '../../core/units/units.ts';
import type { StripReading } from '../../job/facts/strip-readings.ts';
import type { WovenStrip } from '../../job/schema/pitch.ts';

/** Below this many times their joint ±, two readings may be one pitch: 1 in 300 (our own value). */
const APART = 1.5;

export interface WhichReading {
  /** The one that counts. */
  readonly taken: StripReading;
  /** The others, most exact first. */
  readonly others: readonly StripReading[];
  /** Those of them that contradict the one that counts. */
  readonly against: readonly StripReading[];
}

/**
 * The reading with the smallest ± counts, unless the person chose another. A band at the end of the strip says only
 * where the pitch is not: it counts where nothing else was read. Undefined without readings.
 * @param chosen passed over where the strip was not read that way.
 */
export const whichReading = (
  readings: readonly StripReading[],
  chosen: ReadingMethod | undefined,
): WhichReading | undefined => {
  const ranked = [...readings].sort(
    (a, b) =>
      Number(b.method === chosen) - Number(a.method === chosen) ||
      Number(a.atEnd ?? false) - Number(b.atEnd ?? false) ||
      a.plusMinusLpi - b.plusMinusLpi,
  );
  const [taken, ...others] = ranked;
  if (taken === undefined) return undefined;
  const against = others.filter(
    (other) =>
      other.atEnd !== true &&
      Math.abs(other.viewingLpi - taken.viewingLpi) >
        APART * Math.hypot(other.plusMinusLpi, taken.plusMinusLpi),
  );
  return { taken, others, against };
};

/** A remedy that takes off less than this share is not worth the trouble (our own value). */
const WORTH = 0.8;

const figure = (lpi: number): string => `±${trimmed(lpi, lpi < 0.01 ? 4 : 3)} LPI`;

/** Whether it is exact enough for the print, and if not what to do next. @param allowedLpi ± that the print allows. */
export const adviceOn = (reading: StripReading, strip: WovenStrip, allowedLpi: number): string =>
  reading.plusMinusLpi <= allowedLpi * 1.005
    ? `Exact enough: this print allows ${figure(allowedLpi)}.`
    : `This print needs ${figure(allowedLpi)}: ${nextStep(reading, strip, allowedLpi)}`;

const nextStep = (reading: StripReading, strip: WovenStrip, allowedLpi: number): string => {
  const { ifTypedLpi, plusMinusLpi } = reading;
  if (ifTypedLpi !== undefined && ifTypedLpi < WORTH * plusMinusLpi)
    return `type the camera distance. That makes it about ${figure(ifTypedLpi)}.`;
  const acrossIn = mmToInch(mm(strip.acrossMm));
  const most = strip.bandsLpi.length;
  const wanted = bandsToCount(acrossIn, allowedLpi);
  const bands = Math.min(wanted, most);
  const finer = 'use it, and weave a finer strip around it, as wide as the paper allows.';
  if (countingGives(bands, acrossIn) >= WORTH * plusMinusLpi || (reading.counted ?? 0) >= bands)
    return reading.method === 'photo'
      ? `take the photo again, straight on and with the strip filling it. If that is not enough, ${finer}`
      : finer;
  const where = wanted >= most ? `all ${most} bands` : `${wanted} bands, spread over the strip`;
  return wanted > most
    ? `count fringes in ${where}. If that is not enough, ${finer}`
    : `count fringes in ${where}.`;
};
