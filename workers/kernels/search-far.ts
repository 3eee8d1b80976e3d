/**
 * Deflate's wide search. Besides the byte and the pixel before, it compares the last place within the window where the
 * next sixteen bytes occurred, and the last where the next eleven did. It finds places by hash and looks only at the
 * last one with that hash. Rows filtered along lying ribs, and smooth pictures, repeat in this way.
 */
import {
  BLOCK_SYMBOLS,
  NONE,
  PIXEL,
  addMatch,
  asMatch,
  countByte,
  matchLength,
  repeatLength,
} from './repeats';

/** How far back a match may reach (RFC 1951, 2). */
const WINDOW: usize = 32768;

/**
 * Bytes in each rolling hash of 32 bits. Each step shifts older bytes up: by two bits a byte, sixteen remain; by
 * three, eleven.
 */
const LONG: usize = 16;
const SHORT: usize = 11;
const HASH_BITS: u32 = 16;
/** Turns the upper bits of a hash into the place of a u32 in a table. */
const SLOT: u32 = 32 - HASH_BITS;
const TABLE: usize = 4 << HASH_BITS;

/** Repeats shorter than this do not pay for their distance. */
const SHORTEST_REPEAT: usize = 10;
/** A match this long is taken at once; the search does not check whether one at the next byte is longer. */
const LONG_ENOUGH: u32 = 32;
/**
 * Places inside a match this long enter only the long hash: the short one serves where the long one finds nothing.
 */
const SHORT_ENTERED: u32 = 24;
/**
 * Only this many places at the end of a match are entered: for the others the tables already hold the place that they
 * repeat, which is nearly as near.
 */
const ENTERED: u32 = 64;

/** A well-mixed number for each byte value. */
function stir(table: usize): void {
  for (let byte: u32 = 0; byte < 256; byte += 1) {
    let hash = (byte + 1) * 0x9e3779b1;
    hash ^= hash >> 15;
    hash *= 0x85ebca6b;
    store<u32>(table + (byte << 2), hash ^ (hash >> 13));
  }
}

function stepLong(hash: u32, stirred: usize, byte: usize): u32 {
  return (hash << 2) + load<u32>(stirred + ((<usize>load<u8>(byte)) << 2));
}
function stepShort(hash: u32, stirred: usize, byte: usize): u32 {
  return (hash << 3) + load<u32>(stirred + ((<usize>load<u8>(byte)) << 2));
}

function longHash(stirred: usize, at: usize): u32 {
  let hash: u32 = 0;
  for (let i: usize = 0; i < LONG; i += 1) hash = stepLong(hash, stirred, at + i);
  return hash;
}
function shortHash(stirred: usize, at: usize): u32 {
  let hash: u32 = 0;
  for (let i: usize = 0; i < SHORT; i += 1) hash = stepShort(hash, stirred, at + i);
  return hash;
}

function slot(table: usize, hash: u32): usize {
  return table + ((<usize>(hash >> SLOT)) << 2);
}

/**
 * Fills one block, and stops when it is full or all bytes are in it.
 * @param at where the block begins; `first` for the first one
 * @param seen u32[2 × 65 536 + 256]: the last address of each long and of each short hash, zero before the first
 *   block and kept from one to the next; room for a table behind them
 * @returns where the next block begins, or `end`
 */
export function searchFar(
  first: usize,
  at: usize,
  end: usize,
  seen: usize,
  pairs: usize,
  counts: usize,
): usize {
  const seenShort = seen + TABLE;
  const stirred = seenShort + TABLE;
  stir(stirred);
  // A hash holds its last bytes alone, so that it can be begun anywhere.
  let long = longHash(stirred, at);
  let short = shortHash(stirred, at);
  let room = BLOCK_SYMBOLS;
  while (room > 0 && at < end) {
    const from = at;
    const stop = at + room < end ? at + room : end;
    let match = NONE;
    for (; at < stop; at += 1) {
      const four = load<u32>(at);
      const longSlot = slot(seen, long);
      const shortSlot = slot(seenShort, short);
      const longSeen = load<u32>(longSlot);
      const shortSeen = load<u32>(shortSlot);
      store<u32>(longSlot, <u32>at);
      store<u32>(shortSlot, <u32>at);
      long = stepLong(long, stirred, at + LONG);
      short = stepShort(short, stirred, at + SHORT);
      if (
        four === load<u32>(at - 1) ||
        four === load<u32>(at - PIXEL) ||
        four === load<u32>(longSeen) ||
        four === load<u32>(shortSeen)
      ) {
        match = longest(first, at, end, longSeen, shortSeen);
        const length = matchLength(match);
        if (length >= LONG_ENOUGH) break;
        if (length > 0) {
          const next = longest(
            first,
            at + 1,
            end,
            load<u32>(slot(seen, long)),
            load<u32>(slot(seenShort, short)),
          );
          if (matchLength(next) <= length) break;
          match = NONE;
        }
      }
      countByte(counts, at, four & 255);
    }
    addMatch(pairs, counts, <u32>(at - from), match);
    room -= <i32>(at - from) + 1;
    const length = matchLength(match);
    if (length === 0) continue;
    // The match's own first place is entered already; now the others.
    const last = at + length;
    at += 1;
    if (length > ENTERED) {
      at = last - ENTERED;
      long = longHash(stirred, at);
    }
    if (length < SHORT_ENTERED)
      for (; at < last; at += 1) {
        store<u32>(slot(seen, long), <u32>at);
        store<u32>(slot(seenShort, short), <u32>at);
        long = stepLong(long, stirred, at + LONG);
        short = stepShort(short, stirred, at + SHORT);
      }
    else {
      for (; at < last; at += 1) {
        store<u32>(slot(seen, long), <u32>at);
        long = stepLong(long, stirred, at + LONG);
      }
      short = shortHash(stirred, at);
    }
  }
  return at;
}

function longest(first: usize, at: usize, end: usize, longSeen: usize, shortSeen: usize): u32 {
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
  if (mayRepeat(first, at, longSeen)) {
    const repeat = repeatLength(at, end, at - longSeen);
    if (repeat >= SHORTEST_REPEAT && repeat > length) {
      length = repeat;
      distance = at - longSeen;
    }
  }
  if (length < LONG && shortSeen !== longSeen && mayRepeat(first, at, shortSeen)) {
    const repeat = repeatLength(at, end, at - shortSeen);
    if (repeat >= SHORTEST_REPEAT && repeat > length) {
      length = repeat;
      distance = at - shortSeen;
    }
  }
  return length < 4 ? NONE : asMatch(length, distance);
}

/**
 * True where `seen` lies within the stretch and the window and the first eight bytes are equal. A place never seen is
 * 0, which lies before `first`.
 */
function mayRepeat(first: usize, at: usize, seen: usize): bool {
  return seen >= first && at - seen <= WINDOW && load<u64>(at) === load<u64>(seen);
}
