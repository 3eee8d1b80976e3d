/**
 * The second way to read a strip: count fringes in some bands. By relation 9 a band shows
 * |LPI_band − LPI_true| W of them, so signed counts lie on a line of slope W through zero at the true
 * pitch, inside the printed range or outside it. A count has no sign; but there is only one zero, so
 * all bands below it share one sign and all above it the other, and the best fit says where it is.
 */
import type { PitchReading } from './reading.ts';

export interface FringeCount {
  readonly bandLpi: number;
  /** From edge to edge; 0 or more, parts counted as parts. */
  readonly fringes: number;
}

/** Standard deviation of one count, in fringes, when parts are guessed to a half (ours, no source). */
export const COUNT_DOUBT = 0.2;

/** Of what a print allows, the part that counting may use up: paper and printer need the rest (ours). */
const COUNTING_SHARE = 0.6;

/** Fewer say too little of each other, whatever the width (ours, no source). */
const FEWEST_COUNTED = 6;

/**
 * In how many bands to count for a pitch that is exact to `allowedLpi`: the ± of `readFringes` falls
 * with the root of their number. @param acrossIn width of the bands, inches.
 */
export const bandsToCount = (acrossIn: number, allowedLpi: number): number =>
  Math.max(
    FEWEST_COUNTED,
    Math.ceil(((2 * COUNT_DOUBT) / acrossIn / (allowedLpi * COUNTING_SHARE)) ** 2),
  );

/** How many degrees of freedom the usual doubt counts for beside the residuals (ours, no source). */
const BELIEF = 6;

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
       * `too-few`: fewer than two bands. `two-ways`: another pitch fits as well.
       * `no-fit`: the counts cannot all be of one lens and this width.
       */
      readonly why: 'too-few' | 'two-ways' | 'no-fit';
      /** The pitches that fit, best first. */
      readonly candidatesLpi: readonly number[];
    };

interface Fit {
  readonly lpi: number;
  readonly squares: number;
}

/** Bands are in order; the first `below` of them lie under the zero. Least squares, slope known. */
const fitWith = (counts: readonly FringeCount[], below: number, acrossIn: number): Fit => {
  const zeros = counts.map(
    ({ bandLpi, fringes }, i) => bandLpi + ((i < below ? 1 : -1) * fringes) / acrossIn,
  );
  const lpi = zeros.reduce((sum, zero) => sum + zero, 0) / zeros.length;
  const squares = zeros.reduce((sum, zero) => sum + ((zero - lpi) * acrossIn) ** 2, 0);
  return { lpi, squares };
};

/** Two fits that differ by less than this are one answer. */
const sameAnswer = (a: Fit, b: Fit, acrossIn: number) =>
  Math.abs(a.lpi - b.lpi) * acrossIn < COUNT_DOUBT;

/** How much worse, in squared doubts, the next fit must be before the best is believed: 3². */
const CLEARLY_WORSE = 9;
/** Squared doubts a degree of freedom beyond which counts contradict each other. */
const TOO_FAR = 9;

/** @param acrossIn the width over which the fringes were counted, inches above 0. */
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
  // A few residuals say little of the doubt: they weigh against as many as usually believed.
  const spread = Math.max(
    COUNT_DOUBT,
    Math.sqrt((BELIEF * doubt + best.squares) / (BELIEF + free)),
  );
  return {
    ok: true,
    method: 'fringes',
    viewingLpi: best.lpi,
    plusMinusLpi: (2 * spread) / acrossIn / Math.sqrt(sorted.length),
    residual: Math.sqrt(best.squares / sorted.length),
    inside: best.lpi >= sorted[0]!.bandLpi && best.lpi <= sorted.at(-1)!.bandLpi,
  };
};
