/**
 * The wide search. Besides the byte and the pixel before, it compares the last place within the window where the next
 * sixteen bytes occurred, and the last where the next eleven did. It finds places by hash and looks only at the last
 * one with that hash. Rows filtered along lying ribs, and smooth pictures, repeat in this way.
 */
import { NO_MATCH, writeBlock } from './blocks.ts';
import { WINDOW } from './tables.ts';
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

/**
 * Bytes in each rolling hash of 32 bits. Each step shifts older bytes up: by two bits a byte, sixteen remain; by
 * three, eleven.
 */
const LONG = 16;
const SHORT = 11;
const HASH_BITS = 16;
const SLOT = 32 - HASH_BITS;

/** Repeats shorter than this do not pay for their distance. */
const SHORTEST_REPEAT = 10;
/** A match this long is taken at once; the search does not check whether one at the next byte is longer. */
const LONG_ENOUGH = 32;
/**
 * Places inside a match this long enter only the long hash: the short one serves where the long one finds nothing.
 */
const SHORT_ENTERED = 24;
/**
 * Only this many places at the end of a match are entered: for the others the tables already hold the place that they
 * repeat, which is nearly as near.
 */
const ENTERED = 64;

/** A well-mixed number for each byte value. */
const stirred = Int32Array.from({ length: 256 }, (_, byte) => {
  let hash = Math.imul(byte + 1, 0x9e3779b1);
  hash ^= hash >>> 15;
  hash = Math.imul(hash, 0x85ebca6b);
  return hash ^ (hash >>> 13);
});
const stepLong = (hash: number, byte: number): number => ((hash << 2) + stirred[byte]!) | 0;
const stepShort = (hash: number, byte: number): number => ((hash << 3) + stirred[byte]!) | 0;

export const searchFar = (stretch: Stretch): void => {
  const { bytes, view, end, out, block } = stretch;
  const { byteCounts } = block;
  const seenLong = new Int32Array(1 << HASH_BITS);
  const seenShort = new Int32Array(1 << HASH_BITS);
  let at = MARGIN;
  let long = longHash(bytes, at);
  let short = shortHash(bytes, at);
  while (at < end) {
    block.from = at;
    let room = BLOCK_SYMBOLS;
    while (room > 0 && at < end) {
      const from = at;
      const stop = Math.min(end, at + room);
      let match = NO_MATCH;
      for (; at < stop; at += 1) {
        const four = view.getInt32(at, true);
        const longSeen = seenLong[long >>> SLOT]!;
        const shortSeen = seenShort[short >>> SLOT]!;
        seenLong[long >>> SLOT] = at;
        seenShort[short >>> SLOT] = at;
        long = stepLong(long, bytes[at + LONG]!);
        short = stepShort(short, bytes[at + SHORT]!);
        if (
          four === view.getInt32(at - 1, true) ||
          four === view.getInt32(at - PIXEL, true) ||
          four === view.getInt32(longSeen, true) ||
          four === view.getInt32(shortSeen, true)
        ) {
          match = longest(stretch, at, longSeen, shortSeen);
          const length = matchLength(match);
          if (length >= LONG_ENOUGH) break;
          if (length > 0) {
            const next = longest(
              stretch,
              at + 1,
              seenLong[long >>> SLOT]!,
              seenShort[short >>> SLOT]!,
            );
            if (matchLength(next) <= length) break;
            match = NO_MATCH;
          }
        }
        const cell = ((at & 3) << 8) | (four & 255);
        byteCounts[cell] = byteCounts[cell]! + 1;
      }
      addMatch(block, at - from, match);
      room -= at - from + 1;
      const length = matchLength(match);
      if (length === 0) continue;
      // The match's own first place is entered already; now the others.
      const last = at + length;
      at += 1;
      if (length > ENTERED) {
        at = last - ENTERED;
        long = longHash(bytes, at);
      }
      if (length < SHORT_ENTERED)
        for (; at < last; at += 1) {
          seenLong[long >>> SLOT] = at;
          seenShort[short >>> SLOT] = at;
          long = stepLong(long, bytes[at + LONG]!);
          short = stepShort(short, bytes[at + SHORT]!);
        }
      else {
        for (; at < last; at += 1) {
          seenLong[long >>> SLOT] = at;
          long = stepLong(long, bytes[at + LONG]!);
        }
        short = shortHash(bytes, at);
      }
    }
    block.to = at;
    writeBlock(out, bytes, block);
  }
};

const longHash = (bytes: Uint8Array, at: number): number => {
  let hash = 0;
  for (let i = 0; i < LONG; i += 1) hash = stepLong(hash, bytes[at + i]!);
  return hash;
};

const shortHash = (bytes: Uint8Array, at: number): number => {
  let hash = 0;
  for (let i = 0; i < SHORT; i += 1) hash = stepShort(hash, bytes[at + i]!);
  return hash;
};

const longest = (stretch: Stretch, at: number, longSeen: number, shortSeen: number): number => {
  const { view } = stretch;
  const four = view.getInt32(at, true);
  let length = 0;
  let distance = 0;
  if (at > MARGIN && four === view.getInt32(at - 1, true)) {
    length = repeatLength(stretch, at, 1);
    distance = 1;
  } else if (at >= MARGIN + PIXEL && four === view.getInt32(at - PIXEL, true)) {
    length = repeatLength(stretch, at, PIXEL);
    distance = PIXEL;
  }
  if (mayRepeat(view, at, longSeen)) {
    const repeat = repeatLength(stretch, at, at - longSeen);
    if (repeat >= SHORTEST_REPEAT && repeat > length) {
      length = repeat;
      distance = at - longSeen;
    }
  }
  if (length < LONG && shortSeen !== longSeen && mayRepeat(view, at, shortSeen)) {
    const repeat = repeatLength(stretch, at, at - shortSeen);
    if (repeat >= SHORTEST_REPEAT && repeat > length) {
      length = repeat;
      distance = at - shortSeen;
    }
  }
  return length < 4 ? NO_MATCH : asMatch(length, distance);
};

/**
 * True where `seen` lies within the stretch and the window and the first eight bytes are equal. A place never seen is
 * 0, which lies before `MARGIN`.
 */
const mayRepeat = (view: DataView, at: number, seen: number): boolean =>
  seen >= MARGIN &&
  at - seen <= WINDOW &&
  view.getInt32(at, true) === view.getInt32(seen, true) &&
  view.getInt32(at + 4, true) === view.getInt32(seen + 4, true);
