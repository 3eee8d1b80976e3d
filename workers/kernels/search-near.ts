/**
 * Deflate's quick search. It compares each byte with only three before it: the byte before, the pixel before, and the
 * byte one rib before. Rows filtered along upright ribs hold few other repeats.
 */
import {
  BLOCK_SYMBOLS,
  NONE,
  PIXEL,
  addMatch,
  asMatch,
  countBytes,
  matchLength,
  repeatLength,
} from './repeats';

/** A repeat of the rib before costs a longer distance, so a short one is not worth it. */
const SHORTEST_RIB: usize = 12;
/** With a run this long the rib before is not compared. */
const LONG_ENOUGH: usize = 64;

/** Which of 32 bytes equal those `distance` before them, one bit a byte. */
function equals(at: usize, distance: usize): u32 {
  const before = at - distance;
  const low = i8x16.bitmask(i8x16.eq(v128.load(at), v128.load(before)));
  const high = i8x16.bitmask(i8x16.eq(v128.load(at, 16), v128.load(before, 16)));
  return (<u32>low) | ((<u32>high) << 16);
}

/** Where four bits follow each other, and where twelve do; the bits for what lies beyond are 0. */
function fours(bits: u32): u32 {
  const twos = bits & (bits >> 1);
  return twos & (twos >> 2);
}
function twelves(bits: u32): u32 {
  const four = fours(bits);
  return four & (four >> 4) & (four >> 8);
}
/** Of 32 places, those of which twelve bytes are seen. */
const SEEN: u32 = 21;

/**
 * Fills one block, and stops when it is full or all bytes are in it.
 * @param at where the block begins; `first` for the first one
 * @param rib distance from a dot to the same dot under the next rib, 4 … 256 bytes
 * @returns where the next block begins, or `end`
 */
export function searchNear(
  first: usize,
  at: usize,
  end: usize,
  rib: usize,
  pairs: usize,
  counts: usize,
): usize {
  let room = BLOCK_SYMBOLS;
  while (room > 0 && at < end) {
    const from = at;
    const stop = min(end, at + room);
    let match = NONE;
    while (at < stop) {
      // A place of which less repeats takes no match, whatever else is about it.
      let places =
        (fours(equals(at, 1)) | fours(equals(at, PIXEL)) | twelves(equals(at, rib))) &
        ((1 << SEEN) - 1);
      let found = stop;
      for (; places !== 0; places &= places - 1) {
        const place = at + ctz(places);
        if (place >= stop) break;
        match = nearest(first, place, end, rib);
        if (match !== NONE) {
          found = place;
          break;
        }
      }
      if (match !== NONE) {
        at = found;
        break;
      }
      at = min(stop, at + SEEN);
    }
    countBytes(counts, from, at);
    addMatch(pairs, counts, <u32>(at - from), match);
    room -= <i32>(at - from) + 1;
    at += matchLength(match);
  }
  return at;
}

function nearest(first: usize, at: usize, end: usize, rib: usize): u32 {
  const four = load<u32>(at);
  let length: usize = 0;
  let distance: usize = 0;
  if (at > first && four === load<u32>(at - 1)) {
    length = repeatLength(at, end, 1);
    distance = 1;
  } else if (at >= first + PIXEL && four === load<u32>(at - PIXEL)) {
    length = repeatLength(at, end, PIXEL);
    distance = PIXEL;
  }
  if (length < LONG_ENOUGH && at >= first + rib && four === load<u32>(at - rib)) {
    const repeat = repeatLength(at, end, rib);
    if (repeat >= SHORTEST_RIB && repeat > length) {
      length = repeat;
      distance = rib;
    }
  }
  // At the end of the stretch a run of four may be cut shorter.
  return length < 4 ? NONE : asMatch(length, distance);
}

/** How many places are sampled to find the rib. */
const LOOKS: usize = 2048;

/**
 * The distance, from two pixels up to `most`, at which the most bytes repeat, plain runs left out. That is the rib,
 * where each holds a whole number of dots or nearly.
 * @param most 256 or less; what lies so far before `first` is never read
 */
export function likelyRib(first: usize, end: usize, most: usize): usize {
  const start = first + most;
  const step = start < end ? max(<usize>7, (end - first - most) / LOOKS) : 7;
  let best: u32 = 0;
  let likely = PIXEL * 12;
  for (let distance = PIXEL * 2; distance <= most; distance += PIXEL) {
    let hits: u32 = 0;
    for (let at = start; at + 8 < end; at += step) {
      const four = load<u32>(at, 4);
      if (load<u64>(at) === load<u64>(at - distance) && four !== load<u32>(at, 1)) hits += 1;
    }
    if (hits > best) {
      best = hits;
      likely = distance;
    }
  }
  return likely;
}

function min(a: usize, b: usize): usize {
  return a < b ? a : b;
}
function max(a: usize, b: usize): usize {
  return a > b ? a : b;
}
