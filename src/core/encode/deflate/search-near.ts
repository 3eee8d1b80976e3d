/**
 * The quick search. It compares each byte with only three before it: the byte before, the pixel before, and the byte
 * one rib before. Rows filtered along upright ribs hold few other repeats.
 */
import { NO_MATCH, writeBlock } from './blocks.ts';
import type { Stretch } from './repeats.ts';
import {
  BLOCK_SYMBOLS,
  MARGIN,
  PIXEL,
  addMatch,
  asMatch,
  matchLength,
  repeatLength,
} from './repeats.ts';

/** A repeat of the rib before costs a longer distance, so a short one is not worth it. */
const SHORTEST_RIB = 12;
/** With a run this long the rib before is not compared. */
const LONG_ENOUGH = 64;

/** @param ribBytes distance from a dot to the same dot under the next rib, bytes; at most `MARGIN`. */
export const searchNear = (stretch: Stretch, ribBytes: number): void => {
  const { bytes, view, end, out, block } = stretch;
  const { byteCounts } = block;
  let at = MARGIN;
  while (at < end) {
    block.from = at;
    let room = BLOCK_SYMBOLS;
    while (room > 0 && at < end) {
      const from = at;
      const stop = Math.min(end, at + room);
      let match = NO_MATCH;
      let one = view.getInt32(at - 1, true);
      let two = view.getInt32(at - 2, true);
      let three = view.getInt32(at - PIXEL, true);
      for (; at < stop; at += 1) {
        const four = view.getInt32(at, true);
        if (four === one || four === three || four === view.getInt32(at - ribBytes, true)) {
          match = nearest(stretch, at, four, ribBytes);
          if (match !== NO_MATCH) break;
        }
        const cell = ((at & 3) << 8) | (four & 255);
        byteCounts[cell] = byteCounts[cell]! + 1;
        three = two;
        two = one;
        one = four;
      }
      addMatch(block, at - from, match);
      room -= at - from + 1;
      at += matchLength(match);
    }
    block.to = at;
    writeBlock(out, bytes, block);
  }
};

const nearest = (stretch: Stretch, at: number, four: number, ribBytes: number): number => {
  const { view } = stretch;
  let length = 0;
  let distance = 0;
  if (at > MARGIN && four === view.getInt32(at - 1, true)) {
    length = repeatLength(stretch, at, 1);
    distance = 1;
  } else if (at >= MARGIN + PIXEL && four === view.getInt32(at - PIXEL, true)) {
    length = repeatLength(stretch, at, PIXEL);
    distance = PIXEL;
  }
  if (
    length < LONG_ENOUGH &&
    at >= MARGIN + ribBytes &&
    four === view.getInt32(at - ribBytes, true)
  ) {
    const repeat = repeatLength(stretch, at, ribBytes);
    if (repeat >= SHORTEST_RIB && repeat > length) {
      length = repeat;
      distance = ribBytes;
    }
  }
  // At the end of the stretch a run of four may be cut shorter.
  return length < 4 ? NO_MATCH : asMatch(length, distance);
};

/** How many places are sampled to find the rib. */
const LOOKS = 2048;

/**
 * The distance, from two pixels up to `MARGIN`, at which the most bytes repeat, plain runs left out. That is the rib,
 * where each holds a whole number of dots or nearly.
 */
export const likelyRib = ({ view, end }: Stretch): number => {
  const step = Math.max(7, Math.floor((end - 2 * MARGIN) / LOOKS));
  let best = 0;
  let likely = 12 * PIXEL;
  for (let distance = 2 * PIXEL; distance <= MARGIN; distance += PIXEL) {
    let hits = 0;
    for (let at = 2 * MARGIN; at < end - 8; at += step) {
      if (
        view.getInt32(at, true) === view.getInt32(at - distance, true) &&
        view.getInt32(at + 4, true) === view.getInt32(at + 4 - distance, true) &&
        view.getInt32(at + 4, true) !== view.getInt32(at + 1, true)
      )
        hits += 1;
    }
    if (hits > best) {
      best = hits;
      likely = distance;
    }
  }
  return likely;
};
