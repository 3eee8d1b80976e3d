/** What both searches for repeats share: the bytes they look through, and how a match is told. */
import type { BitWriter } from './bit-writer.ts';
import type { Block } from './blocks.ts';
import { NO_MATCH } from './blocks.ts';
import { LONGEST_MATCH, SHORTEST_MATCH, distanceCode } from './tables.ts';

/** Bytes in front of the first that may be looked at, though never matched. */
export const MARGIN = 256;
/** Bytes behind the last that may be looked at: zeros. */
export const TAIL = 64;
/**
 * Literals and matches in a block: its codes follow the picture's parts, and its header stays a
 * small share.
 */
export const BLOCK_SYMBOLS = 32768;
/** Bytes of one pixel. */
export const PIXEL = 3;

/** A stretch of bytes being deflated. */
export interface Stretch {
  readonly bytes: Uint8Array;
  readonly view: DataView;
  /** It begins at `MARGIN`. */
  readonly end: number;
  readonly out: BitWriter;
  readonly block: Block;
}

/** How far the bytes from `at` repeat those `distance` before them. The first four are known to. */
export const repeatLength = ({ view, end }: Stretch, at: number, distance: number): number => {
  const most = Math.min(end - at, LONGEST_MATCH);
  let length = 4;
  while (length < most) {
    const differ = view.getInt32(at + length, true) ^ view.getInt32(at + length - distance, true);
    // The lowest bit that differs tells how many of the four bytes do not.
    if (differ !== 0) return Math.min(most, length + ((31 - Math.clz32(differ & -differ)) >> 3));
    length += 4;
  }
  return most;
};

/** A match as the block keeps it, or none when it is too short. */
export const asMatch = (length: number, distance: number): number =>
  length < SHORTEST_MATCH ? NO_MATCH : (distance << 16) | (length - SHORTEST_MATCH);

export const matchLength = (match: number): number =>
  match === NO_MATCH ? 0 : (match & 255) + SHORTEST_MATCH;

/** Adds some plain bytes, already counted, and the match behind them. */
export const addMatch = (block: Block, plain: number, match: number): void => {
  block.plain[block.count] = plain;
  block.match[block.count] = match;
  block.count += 1;
  if (match === NO_MATCH) return;
  const shortened = match & 255;
  const code = distanceCode(match >>> 16);
  block.lengthCounts[shortened] = block.lengthCounts[shortened]! + 1;
  block.distanceFrequency[code] = block.distanceFrequency[code]! + 1;
};
