/**
 * What both searches of deflate share: the bytes they look through, and the block they fill. Addresses of bytes:
 * `first` is the first byte to deflate, `end` the one after the last; 256 bytes before and 64 after are read too.
 *
 * A block is two rooms. `pairs`, u32[2 × 32 769]: how many plain bytes (literals) stand before each match, and the match:
 * its distance from bit 16 up, its length minus 3 below; 0 for none, after the last plain bytes. `counts`, u32[1313],
 * zero when a block begins: how often each byte is plain, in four tables of 256 end to end, since counting twice in the
 * same place would make the second count wait for the first; how often each length occurs, 256 counted from 3; each
 * distance code of RFC 1951, 3.2.5, room for 32; and the number of pairs.
 */

/** Literals and matches in a block. src/core/encode/deflate/rooms.ts says why. */
export const BLOCK_SYMBOLS: i32 = 32768;
const LONGEST_MATCH: usize = 258;
/** Bytes per pixel. */
export const PIXEL: usize = 3;

/** No match. */
export const NONE: u32 = 0;

const LENGTHS: usize = 4 * 1024;
const DISTANCES: usize = LENGTHS + 4 * 256;
const COUNT: usize = DISTANCES + 4 * 32;

/** How many bytes from `at` repeat those `distance` before them. The caller has compared the first four. */
export function repeatLength(at: usize, end: usize, distance: usize): usize {
  const rest = end - at;
  const most = rest < LONGEST_MATCH ? rest : LONGEST_MATCH;
  for (let length: usize = 4; length < most; length += 8) {
    const differ = load<u64>(at + length) ^ load<u64>(at + length - distance);
    // The lowest bit that differs tells how many of the eight bytes are equal.
    if (differ !== 0) {
      const found = length + <usize>(ctz(differ) >> 3);
      return found < most ? found : most;
    }
  }
  return most;
}

export function asMatch(length: usize, distance: usize): u32 {
  return ((<u32>distance) << 16) | (<u32>length - 3);
}

export function matchLength(match: u32): u32 {
  return match === NONE ? 0 : (match & 255) + 3;
}

/**
 * Distance code (RFC 1951, 3.2.5): two codes for every power of two of distance − 1.
 * @param less distance − 1
 */
export function distanceCode(less: u32): u32 {
  if (less < 4) return less;
  const power = 31 - clz(less);
  return 2 * power + ((less >> (power - 1)) & 1);
}

function increase(counter: usize): void {
  store<u32>(counter, load<u32>(counter) + 1);
}

/** Adds `plain` bytes, counted already, and the match after them, which may be none. */
export function addMatch(pairs: usize, counts: usize, plain: u32, match: u32): void {
  const count = load<u32>(counts, COUNT);
  const pair = pairs + ((<usize>count) << 3);
  store<u32>(pair, plain);
  store<u32>(pair, match, 4);
  store<u32>(counts, count + 1, COUNT);
  if (match === NONE) return;
  increase(counts + LENGTHS + ((match & 255) << 2));
  increase(counts + DISTANCES + (distanceCode((match >> 16) - 1) << 2));
}

/** Counts one plain byte. */
export function countByte(counts: usize, at: usize, byte: u32): void {
  increase(counts + ((at & 3) << 10) + (byte << 2));
}

/** Counts the plain bytes from `at` up to `to`. */
export function countBytes(counts: usize, at: usize, to: usize): void {
  for (; at + 4 <= to; at += 4) {
    const four = load<u32>(at);
    increase(counts + ((four & 255) << 2));
    increase(counts + 1024 + (((four >> 8) & 255) << 2));
    increase(counts + 2048 + (((four >> 16) & 255) << 2));
    increase(counts + 3072 + ((four >> 24) << 2));
  }
  for (; at < to; at += 1) countByte(counts, at, load<u8>(at));
}
