/** Adler-32 (RFC 1950, 8.2 and 9). */

/** Largest prime below 2¹⁶. */
const BASE: u64 = 65521;
/** Whole vectors that can be summed before the sums must be reduced: no sum of 32 bits overflows. */
const VECTORS: usize = 340;

function total(sums: v128): u64 {
  return (
    <u64>(<u32>i32x4.extract_lane(sums, 0)) +
    <u64>(<u32>i32x4.extract_lane(sums, 1)) +
    <u64>(<u32>i32x4.extract_lane(sums, 2)) +
    <u64>(<u32>i32x4.extract_lane(sums, 3))
  );
}

/**
 * Adler-32 of u8[length].
 * @param before the sum of the bytes before these; 1 for none
 * @returns the sum, as 32 bits of either sign
 */
export function adler32(at: usize, length: u32, before: u32): u32 {
  const highWeights = i16x8(16, 15, 14, 13, 12, 11, 10, 9);
  const lowWeights = i16x8(8, 7, 6, 5, 4, 3, 2, 1);
  const end = at + length;
  let a: u64 = before & 0xffff;
  let b: u64 = before >> 16;
  while (at + 16 <= end) {
    const left = (end - at) >> 4;
    const vectors = left < VECTORS ? left : VECTORS;
    const stop = at + (vectors << 4);
    let sums = i32x4.splat(0);
    /** Of `sums` before each vector: every byte counts again with each of the sixteen after it. */
    let earlier = i32x4.splat(0);
    let weighted = i32x4.splat(0);
    for (; at < stop; at += 16) {
      const bytes = v128.load(at);
      earlier = i32x4.add(earlier, sums);
      sums = i32x4.add(sums, i32x4.extadd_pairwise_i16x8_u(i16x8.extadd_pairwise_i8x16_u(bytes)));
      const first = i32x4.dot_i16x8_s(i16x8.extend_low_i8x16_u(bytes), highWeights);
      const second = i32x4.dot_i16x8_s(i16x8.extend_high_i8x16_u(bytes), lowWeights);
      weighted = i32x4.add(weighted, i32x4.add(first, second));
    }
    b += 16 * (<u64>vectors * a + total(earlier)) + total(weighted);
    a += total(sums);
    a %= BASE;
    b %= BASE;
  }
  for (; at < end; at += 1) {
    a += load<u8>(at);
    b += a;
  }
  return ((<u32>(b % BASE)) << 16) | (<u32>(a % BASE));
}
