/**
 * Air under the lens, spreading ink, or both: finds the airs and spreads that explain the jumps that were seen. Tries
 * all pairs on a grid against the traced model and weights them by how well they fit.
 */
import { tracedGap } from '../lens/traced.ts';
import type { Counts, Estimate } from './counts.ts';
import { HEAD_SIGMA_MM } from './counts.ts';
import type { MendSetup } from './fault.ts';
import type { JumpModel } from './jump-model.ts';

export interface BlurRead {
  /** g' with the air in it, from the head’s travel. */
  readonly gapMm: Estimate;
  readonly airMm: Estimate;
  /** Spread of ink beyond what lens and dot explain, as a share of the pitch. */
  readonly extraSpread: Estimate;
  /** Likelihood of the counts with neither, with air alone, with ink alone, with both. */
  readonly likely: readonly [none: number, air: number, ink: number, both: number];
}

/** Air up to this many times g and ink up to this many pitches are tried, in so many steps. */
const MOST_AIR = 0.9;
const AIRS = 18;
const MOST_INK = 0.75;
const INKS = 15;
/** Less than this is no fault: shares of g and of the pitch (our own values). */
const QUIET_AIR = 0.04;
const QUIET_INK = 0.1;
/** Relative doubt of a jump’s place and length: what the trace leaves out, and the sheet itself (our own values). */
const PLACE_DOUBT = 0.03;
const LENGTH_DOUBT = 0.1;

interface Seen {
  /** Head positions at the jumps; where only the repeat is known, half of it each way. */
  readonly forthMm: number | undefined;
  readonly backMm: number | undefined;
  readonly takesMm: number | undefined;
}

const seenIn = ({ jumpForthMm, jumpBackMm, repeatMm, jumpTakesMm }: Counts): Seen => {
  const both = jumpForthMm !== undefined && jumpBackMm !== undefined;
  const half = repeatMm === undefined ? undefined : repeatMm / 2;
  return {
    forthMm: both ? jumpForthMm : half,
    backMm: both ? jumpBackMm : half,
    takesMm: jumpTakesMm,
  };
};

const density = (off: number, sigma: number): number => Math.exp(-0.5 * (off / sigma) ** 2) / sigma;

/** Likelihood of what was seen, for one air and one spread. */
const fits = (seen: Seen, model: JumpModel, airMm: number, ink: number): number => {
  const { forthMm, backMm, takesMm } = seen;
  const asked = forthMm !== undefined && backMm !== undefined;
  // A print out of place meets one jump sooner and the other later.
  const offset = asked ? (model.beside(backMm, airMm) - model.beside(forthMm, airMm)) / 2 : 0;
  const forth = model.jump(airMm, ink, offset);
  const back = model.jump(airMm, ink, -offset);
  // All is blurred: no jump would have been seen.
  if (forth === undefined || back === undefined)
    return (asked ? 1e-12 : 1 / HEAD_SIGMA_MM) * (takesMm === undefined ? 1 : 1 / HEAD_SIGMA_MM);
  let likely = 1 / HEAD_SIGMA_MM;
  if (asked) {
    const half = (forth.atMm + back.atMm) / 2;
    const sigma = Math.hypot(HEAD_SIGMA_MM / Math.SQRT2, PLACE_DOUBT * half);
    likely = density(half - (forthMm + backMm) / 2, sigma);
  }
  if (takesMm !== undefined) {
    const takes = (forth.takesMm + back.takesMm) / 2;
    const sigma = Math.hypot(Math.SQRT2 * HEAD_SIGMA_MM, LENGTH_DOUBT * takes);
    likely *= density(takes - takesMm, sigma);
  }
  return likely + 1e-12;
};

/** Undefined when neither the head’s travel nor the length of the jump is known. */
export const fitBlur = (
  setup: MendSetup,
  counts: Counts,
  model: JumpModel,
): BlurRead | undefined => {
  const seen = seenIn(counts);
  if (seen.forthMm === undefined && seen.takesMm === undefined) return undefined;
  const own = tracedGap(setup.lens);
  const airs = Array.from({ length: AIRS + 1 }, (_, i) => (i * MOST_AIR * own) / AIRS);
  const inks = Array.from({ length: INKS + 1 }, (_, i) => (i * MOST_INK) / INKS);
  const isAir = (air: number) => air >= QUIET_AIR * own;
  const isInk = (ink: number) => ink >= QUIET_INK;
  const sums = [0, 0, 0, 0];
  const counted = [0, 0, 0, 0];
  const moments = { whole: 0, air: 0, air2: 0, ink: 0, ink2: 0 };
  for (const air of airs)
    for (const ink of inks) {
      const likely = fits(seen, model, air, ink);
      const kind = (isAir(air) ? 1 : 0) + (isInk(ink) ? 2 : 0);
      sums[kind]! += likely;
      counted[kind]! += 1;
      // One cause is likelier than two, and none likelier still.
      const weight = likely * ([0.75, 0.12, 0.12, 0.02][kind]! / kindCount(kind));
      moments.whole += weight;
      moments.air += weight * air;
      moments.air2 += weight * air * air;
      moments.ink += weight * ink;
      moments.ink2 += weight * ink * ink;
    }
  const { whole } = moments;
  const airMm = spreadOf(moments.air / whole, moments.air2 / whole, (0.3 * MOST_AIR * own) / AIRS);
  return {
    gapMm: { value: own + airMm.value, plusMinus: airMm.plusMinus },
    airMm,
    extraSpread: spreadOf(moments.ink / whole, moments.ink2 / whole, (0.3 * MOST_INK) / INKS),
    likely: [0, 1, 2, 3].map((kind) => sums[kind]! / counted[kind]!) as [
      number,
      number,
      number,
      number,
    ],
  };
};

/** Grid points of each kind: 1 air counts as no fault, 2 inks do (0 and half a tenth). */
const kindCount = (kind: number): number => (kind & 1 ? AIRS : 1) * (kind & 2 ? INKS - 1 : 2);

const spreadOf = (mean: number, square: number, least: number): Estimate => ({
  value: mean,
  plusMinus: 2 * Math.hypot(Math.sqrt(Math.max(0, square - mean * mean)), least),
});
