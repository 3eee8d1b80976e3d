/** How far a paper misses each colour that was wanted. */
import { deltaE00 } from '../../src/core/colour/icc/delta-e.ts';
import type { Lab } from '../../src/core/colour/icc/delta-e.ts';

/** ICC.1:2022, 6.3.4.2: 16 bits of L* 0 … 100, of a* and b* −128 … 127. */
const labAt = (numbers: Uint16Array, at: number): Lab => [
  numbers[at]! / 655.35,
  numbers[at + 1]! / 257 - 128,
  numbers[at + 2]! / 257 - 128,
];

/** CIE 15: L* of Y, 0 … 1, and back; the same curve carries a* and b*. */
const curve = (y: number): number => (y > 216 / 24389 ? Math.cbrt(y) : (y * 24389) / 3132 + 4 / 29);
const uncurve = (f: number): number => (f > 6 / 29 ? f ** 3 : ((f - 4 / 29) * 3132) / 24389);

/** Scales a colour's light so that black lands on the paper's black and white stays: as the conversion does. */
const lifted = ([L, a, b]: Lab, black: number): Lab => {
  const f = (L + 16) / 116;
  const [x, y, z] = [f + a / 500, f, f - b / 200].map((one) =>
    curve(black + (1 - black) * uncurve(one)),
  ) as [number, number, number];
  return [116 * y - 16, 500 * (x - y), 200 * (y - z)];
};

/**
 * The colours to reach: their light scaled so that black lands on the paper's black, as the conversion does; else all that
 * is dark would count as missed.
 * @param wanted Lab, 16 bit
 * @param blackest L* of the paper's black
 */
export const liftedAll = (wanted: Uint16Array, blackest: number): Uint16Array => {
  const black = uncurve((blackest + 16) / 116);
  const all = new Uint16Array(wanted.length);
  for (let at = 0; at < wanted.length; at += 3) {
    const [L, a, b] = lifted(labAt(wanted, at), black);
    all[at] = within(L * 655.35);
    all[at + 1] = within((a + 128) * 257);
    all[at + 2] = within((b + 128) * 257);
  }
  return all;
};

const within = (value: number) => Math.min(65535, Math.max(0, Math.round(value)));

export const lightnessAt = (numbers: Uint16Array, at: number): number => labAt(numbers, at)[0];

/** Tenths of ΔE00 as codes of 8 bits, in 16. */
const TENTHS = 10 * 257;

/**
 * How far each colour is missed beyond the profile's own error: what was reached is surely within the paper's colours, so
 * how far that comes out when it is asked for is the error of the tables.
 * @param again what was reached when `reached` was asked for
 * @returns ΔE00 × 10 × 257, at most 65535.
 */
export const missed = (
  wanted: Uint16Array,
  reached: Uint16Array,
  again: Uint16Array,
): Uint16Array => {
  const far = new Uint16Array(wanted.length / 3);
  for (let dot = 0; dot < far.length; dot += 1) {
    const there = labAt(reached, dot * 3);
    const apart = deltaE00(labAt(wanted, dot * 3), there) - deltaE00(there, labAt(again, dot * 3));
    far[dot] = within(apart * TENTHS);
  }
  return far;
};
