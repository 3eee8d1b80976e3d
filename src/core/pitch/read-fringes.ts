/**
 * The second way to read a strip: count the fringes in some bands. By relation 9 a band shows |LPI_band − LPI_true| W
 * of them, so signed counts lie on a line of slope W through zero at the true pitch, inside the printed range or
 * outside. A count has no sign; but there is only one zero, so all bands below it share one sign and all above it the
 * other, and the best fit finds it.
 */
import { studentT95 } from '../numeric/student.ts';
import type { PitchReading } from './reading.ts';

export interface FringeCount {
  readonly bandLpi: number;
  /** From edge to edge; at least 0, may be fractional. */
  readonly fringes: number;
}

/**
 * Standard deviation of one count, in fringes, when parts are guessed to a half: a sixth for the eye (our own value, no
 * source) and 0.5 / √12 for the half.
 */
export const COUNT_DOUBT = Math.hypot(1 / 6, 0.5 / Math.sqrt(12));

/** Share of the allowed error that counting may use. Errors add in squares: as much is left to paper and printer. */
const COUNTING_SHARE = 0.7;

/** Fewer bands do not check each other, whatever the width (our own value, no source). */
const FEWEST_COUNTED = 6;

/**
 * How many bands to count for a pitch exact to `allowedLpi`: the ± of `readFringes` falls with the root of their
 * number.
 * @param acrossIn width of the bands, inches.
 */
export const bandsToCount = (acrossIn: number, allowedLpi: number): number => {
  let bands = FEWEST_COUNTED;
  while (bands < MOST_COUNTED && countingGives(bands, acrossIn) > allowedLpi * COUNTING_SHARE)
    bands += 1;
  return bands;
};

/** More than any strip has. */
const MOST_COUNTED = 1000;

/** ± LPI that careful counts in so many bands give. */
export const countingGives = (bands: number, acrossIn: number): number =>
  doubtOf(bands, COUNT_DOUBT, acrossIn);

/**
 * Degrees of freedom that the usual error counts for beside the residuals: few, since a careless maker's error is
 * twice a careful one's and only the residuals tell them apart (our own value, no source).
 */
const BELIEF = 2;

/** Half the 95 % interval of a pitch from so many counts, their error estimated as `spread` fringes. */
const doubtOf = (counts: number, spread: number, acrossIn: number): number =>
  (studentT95(BELIEF + counts - 1) * spread) / acrossIn / Math.sqrt(counts);

export type FringeReading =
  | (PitchReading & {
      readonly ok: true;
      /** Root mean square of counted − fitted, in fringes. */
      readonly residual: number;
      readonly inside: boolean;
    })
  | {
      readonly ok: false;
      /**
       * `too-few`: fewer than two bands. `two-ways`: another pitch fits as well. `no-fit`: the counts cannot all
       * belong to one lens and this width.
       */
      readonly why: 'too-few' | 'two-ways' | 'no-fit';
      /** The pitches that fit, best first. */
      readonly candidatesLpi: readonly number[];
    };

interface Fit {
  readonly lpi: number;
  readonly squares: number;
}

/** Least squares with a known slope. Bands are in order; the first `below` lie below the zero. */
const fitWith = (counts: readonly FringeCount[], below: number, acrossIn: number): Fit => {
  const zeros = counts.map(
    ({ bandLpi, fringes }, i) => bandLpi + ((i < below ? 1 : -1) * fringes) / acrossIn,
  );
  const lpi = zeros.reduce((sum, zero) => sum + zero, 0) / zeros.length;
  const squares = zeros.reduce((sum, zero) => sum + ((zero - lpi) * acrossIn) ** 2, 0);
  return { lpi, squares };
};

/** True for two fits that are one answer. */
const sameAnswer = (a: Fit, b: Fit, acrossIn: number) =>
  Math.abs(a.lpi - b.lpi) * acrossIn < COUNT_DOUBT;

/** How much worse, in squared standard deviations, the next fit must be: 3². */
const CLEARLY_WORSE = 9;
/** Squared standard deviations for each degree of freedom above which the counts contradict each other. */
const TOO_FAR = 9;

/** Reads the pitch from counts. @param acrossIn width over which the fringes were counted, inches, above 0. */
export const readFringes = (counts: readonly FringeCount[], acrossIn: number): FringeReading => {
  const sorted = [...counts].sort((a, b) => a.bandLpi - b.bandLpi);
  if (sorted.length < 2) return { ok: false, why: 'too-few', candidatesLpi: [] };
  const fits = Array.from({ length: sorted.length + 1 }, (_, below) =>
    fitWith(sorted, below, acrossIn),
  ).sort((a, b) => a.squares - b.squares);
  const best = fits[0]!;
  const doubt = COUNT_DOUBT ** 2;
  const free = sorted.length - 1;
  if (best.squares / doubt / free > TOO_FAR)
    return { ok: false, why: 'no-fit', candidatesLpi: [best.lpi] };
  const rivals = fits.filter(
    (fit) =>
      !sameAnswer(fit, best, acrossIn) && (fit.squares - best.squares) / doubt < CLEARLY_WORSE,
  );
  if (rivals.length > 0)
    return { ok: false, why: 'two-ways', candidatesLpi: [best, ...rivals].map(({ lpi }) => lpi) };
  // A few residuals say little: the usual error counts beside them.
  const spread = Math.max(
    COUNT_DOUBT,
    Math.sqrt((BELIEF * doubt + best.squares) / (BELIEF + free)),
  );
  return {
    ok: true,
    method: 'fringes',
    viewingLpi: best.lpi,
    plusMinusLpi: doubtOf(sorted.length, spread, acrossIn),
    residual: Math.sqrt(best.squares / sorted.length),
    inside: best.lpi >= sorted[0]!.bandLpi && best.lpi <= sorted.at(-1)!.bandLpi,
  };
};
