/** What both searches share: the bytes they look through, and the matches they find. */
import type { BitWriter } from './bit-writer.ts';
import type { Block } from './blocks.ts';
import { NO_MATCH } from './blocks.ts';
import { LONGEST_MATCH, SHORTEST_MATCH, distanceCode } from './tables.ts';

/** Bytes before the first that a search may read but never match. */
export const MARGIN = 256;
/** Zero bytes after the last that a search may read. */
export const TAIL = 64;
/**
 * Literals and matches in a block: few enough for its codes to follow the picture, enough for its header to stay a
 * small share.
 */
export const BLOCK_SYMBOLS = 32768;
/** Bytes per pixel. */
export const PIXEL = 3;

/** The bytes to deflate and where to write them. */
export interface Stretch {
  readonly bytes: Uint8Array;
  readonly view: DataView;
  /** They begin at `MARGIN` and end here. */
  readonly end: number;
  readonly out: BitWriter;
  readonly block: Block;
}

/** How many bytes from `at` repeat those `distance` before them. The caller has compared the first four. */
export const repeatLength = ({ view, end }: Stretch, at: number, distance: number): number => {
  const most = Math.min(end - at, LONGEST_MATCH);
  let length = 4;
  while (length < most) {
    const differ = view.getInt32(at + length, true) ^ view.getInt32(at + length - distance, true);
    // The lowest bit that differs tells how many of the four bytes are equal.
    if (differ !== 0) return Math.min(most, length + ((31 - Math.clz32(differ & -differ)) >> 3));
    length += 4;
  }
  return most;
};

/** A match as the block keeps it, or `NO_MATCH` when it is too short. */
export const asMatch = (length: number, distance: number): number =>
  length < SHORTEST_MATCH ? NO_MATCH : (distance << 16) | (length - SHORTEST_MATCH);

export const matchLength = (match: number): number =>
  match === NO_MATCH ? 0 : (match & 255) + SHORTEST_MATCH;

/** Adds plain bytes, already counted, and the match after them. */
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
