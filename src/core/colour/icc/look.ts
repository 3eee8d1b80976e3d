/** How colours look in print, and what of them the paper cannot show. */
import type { DeviceTable } from './device-table.ts';
import { convertDots } from './device-table.ts';

/** ΔE00 in tenths from which a colour counts as missed: a difference seen at a glance (common practice, no source). */
const MISSED_FROM = 30;
/** What lies over a missed colour: one that no print shows. */
const OVERLAY = [255, 0, 255] as const;

const packed = (rgba: Uint8Array | Uint8ClampedArray): Uint8Array => {
  const codes = new Uint8Array((rgba.length / 4) * 3);
  for (let from = 0, to = 0; from < rgba.length; from += 4) {
    codes[to++] = rgba[from]!;
    codes[to++] = rgba[from + 1]!;
    codes[to++] = rgba[from + 2]!;
  }
  return codes;
};

/**
 * Pixels as the print shows them.
 * @param rgba 8 bit, sRGB-encoded, opaque
 * @param table red, green, blue, and ΔE00 in tenths by which the paper misses the colour
 * @param warn lays a colour over what it misses
 * @param into may be `rgba` itself
 */
export const seenInPrint = (
  rgba: Uint8Array | Uint8ClampedArray,
  table: DeviceTable,
  warn: boolean,
  into: Uint8Array | Uint8ClampedArray,
): void => {
  const seen = convertDots(packed(rgba), table);
  for (let at = 0; at < seen.length; at += 4) {
    const isOver = warn && seen[at + 3]! >= MISSED_FROM;
    for (let c = 0; c < 3; c += 1) into[at + c] = isOver ? OVERLAY[c]! : seen[at + c]!;
    into[at + 3] = 255;
  }
};

/** Codes of one picture of a sequence, RGB, all thinned to the same grid. */
export type Thinned = Uint8Array;

export interface Missed {
  /** For each picture the share of it that the paper cannot show, 0 … 1. */
  readonly shares: readonly number[];
  /** For each picture but the last: the share that differs from the next on screen and not in print. */
  readonly lost: readonly number[];
}

/** Two codes that differ so much are told apart on screen; so little, not in print. Of 255. */
const [APART, ALIKE] = [16, 4];

const farthest = (a: Uint8Array, b: Uint8Array, at: number, to: number): number => {
  let far = 0;
  for (let c = 0; c < 3; c += 1) far = Math.max(far, Math.abs(a[at + c]! - b[to + c]!));
  return far;
};

export const missedIn = (pictures: readonly Thinned[], table: DeviceTable): Missed => {
  const seen = pictures.map((codes) => convertDots(codes, table));
  const isMissed = (picture: number, dot: number) => seen[picture]![dot * 4 + 3]! >= MISSED_FROM;
  const share = (dots: number, counts: (dot: number) => boolean) => {
    let count = 0;
    for (let dot = 0; dot < dots; dot += 1) if (counts(dot)) count += 1;
    return dots === 0 ? 0 : count / dots;
  };
  return {
    shares: pictures.map((codes, i) => share(codes.length / 3, (dot) => isMissed(i, dot))),
    lost: pictures.slice(1).map((codes, i) =>
      share(codes.length / 3, (dot) => {
        if (!isMissed(i, dot) && !isMissed(i + 1, dot)) return false;
        const onScreen = farthest(pictures[i]!, codes, dot * 3, dot * 3);
        return onScreen >= APART && farthest(seen[i]!, seen[i + 1]!, dot * 4, dot * 4) <= ALIKE;
      }),
    ),
  };
};
