/**
 * The one question asked of every woven sheet, right or wrong: is what the eye sees through the
 * lens the picture a camera at the eye would have taken?
 *
 * Light is compared after sRGB encoding (IEC 61966-2-1), in decibels of PSNR against full scale,
 * one value a lenticule and a row.
 */
import type { Seen } from './lens-bench.ts';

/** Ribs and rows in question, cut into three across the ribs: a wrong pitch shows at the sides only. */
const THIRDS = 3;
/**
 * What a right sheet has to reach, and by how much it must beat every camera two steps off or more.
 * Our own choice, below what right sheets measure (33 … 41 dB, ahead by 10 … 17). Most faults fall
 * under both; the mildest, a woven pitch that forgets the index, does not (31 dB, ahead by 8) and
 * is caught by the best-matching position of each third alone.
 */
export const FLOOR_DB = 30;
export const LEAD_DB = 7;
const RIVAL_STEPS = 2;

export interface Verdict {
  readonly ok: boolean;
  readonly psnrDb: number;
  /** PSNR against the eye's own position, less the best at 2 camera steps from it or more. */
  readonly leadDb: number;
  /** The best-matching position, in camera steps from the eye's own, over all and by third. */
  readonly offSteps: readonly number[];
}

/** sRGB encoding, IEC 61966-2-1. */
export const encoded = (light: Float64Array): Float64Array =>
  light.map((v) => (v <= 0.0031308 ? v * 12.92 : 1.055 * v ** (1 / 2.4) - 0.055));

/** What a camera at that step would take, encoded: one pixel for each rib and line, as in `Seen`. */
export type Truth = (cameraStep: number) => Float64Array;

/** Mean squared error over all, then over each third. */
const errors = (seen: Float64Array, truth: Float64Array, ribs: number): number[] => {
  const sums = new Float64Array(THIRDS);
  const counts = new Float64Array(THIRDS);
  const row = ribs * 3;
  for (let base = 0; base < seen.length; base += row)
    for (let i = 0; i < row; i += 1) {
      const third = Math.floor((i * THIRDS) / row);
      sums[third]! += (seen[base + i]! - truth[base + i]!) ** 2;
      counts[third]! += 1;
    }
  const all = sums.reduce((a, b) => a + b) / seen.length;
  return [all, ...sums.map((sum, third) => sum / counts[third]!)];
};

const decibels = (meanSquare: number): number => -10 * Math.log10(meanSquare);

/**
 * @param own the eye's position in camera steps from the middle of the row of cameras.
 * @param views cameras in the row; positions are searched over the whole row in quarter steps.
 */
export const judge = (seen: Seen, truthAt: Truth, own: number, views: number): Verdict => {
  const light = encoded(seen.light);
  const scored = Array.from({ length: 4 * views + 1 }, (_, i) => {
    const step = i / 4 - views / 2;
    return { step, errors: errors(light, truthAt(step), seen.ribs) };
  });
  const offSteps = Array.from({ length: THIRDS + 1 }, (_, part) => {
    const best = scored.reduce((a, b) => (b.errors[part]! < a.errors[part]! ? b : a));
    return best.step - own;
  });
  const psnrDb = decibels(errors(light, truthAt(own), seen.ribs)[0]!);
  const rivals = scored.filter(({ step }) => Math.abs(step - own) >= RIVAL_STEPS);
  const leadDb = psnrDb - Math.max(...rivals.map((rival) => decibels(rival.errors[0]!)));
  const ok =
    psnrDb >= FLOOR_DB && leadDb >= LEAD_DB && offSteps.every((off) => Math.abs(off) <= 0.5);
  return { ok, psnrDb, leadDb, offSteps };
};
