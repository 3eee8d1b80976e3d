/** The two checksums of PNG and zlib: CRC-32 (PNG 3rd edition, 5.5 and annex D) and Adler-32 (RFC 1950). */

/** Eight tables of 256 entries, end to end, so that one step takes eight bytes. */
const crcTables = (() => {
  const tables = new Int32Array(8 * 256);
  for (let n = 0; n < 256; n += 1) {
    let c = n;
    for (let bit = 0; bit < 8; bit += 1) c = c & 1 ? 0xedb88320 ^ (c >>> 1) : c >>> 1;
    tables[n] = c;
  }
  for (let n = 256; n < tables.length; n += 1) {
    const before = tables[n - 256]!;
    tables[n] = tables[before & 255]! ^ (before >>> 8);
  }
  return tables;
})();

/** CRC-32 of `bytes`, 0 … 2³² − 1. @param before the CRC of the bytes before these; 0 for none. */
export const crc32 = (bytes: Uint8Array, before = 0): number => {
  const t = crcTables;
  const end = bytes.length;
  const whole = end - (end & 7);
  let c = ~before;
  let i = 0;
  for (; i < whole; i += 8) {
    const low =
      c ^ (bytes[i]! | (bytes[i + 1]! << 8) | (bytes[i + 2]! << 16) | (bytes[i + 3]! << 24));
    c =
      t[1792 + (low & 255)]! ^
      t[1536 + ((low >>> 8) & 255)]! ^
      t[1280 + ((low >>> 16) & 255)]! ^
      t[1024 + (low >>> 24)]! ^
      t[768 + bytes[i + 4]!]! ^
      t[512 + bytes[i + 5]!]! ^
      t[256 + bytes[i + 6]!]! ^
      t[bytes[i + 7]!]!;
  }
  for (; i < end; i += 1) c = t[(c ^ bytes[i]!) & 255]! ^ (c >>> 8);
  return ~c >>> 0;
};

/** Largest prime below 2¹⁶ (RFC 1950, 9). */
const ADLER_BASE = 65521;

/**
 * Adler-32 of a short text, 0 … 2³² − 1, for the page, which loads no kernels; the kernel of the same name sums bands.
 * @param before the sum of the bytes before these; 1 for none.
 */
export const adler32 = (bytes: Uint8Array, before = 1): number => {
  let a = before & 0xffff;
  let b = before >>> 16;
  for (const byte of bytes) {
    a = (a + byte) % ADLER_BASE;
    b = (b + a) % ADLER_BASE;
  }
  return ((b << 16) | a) >>> 0;
};

/**
 * Adler-32 of two pieces set end to end, from the sum of each and the length of the second: A = A₁ + A₂ − 1, B = B₁ +
 * B₂ + n₂ (A₁ − 1), both modulo 65521 (follows from RFC 1950, 9).
 * @throws RangeError when `lengthOfSecond` is not a whole number of bytes.
 */
export const combineAdler32 = (first: number, second: number, lengthOfSecond: number): number => {
  if (!(Number.isSafeInteger(lengthOfSecond) && lengthOfSecond >= 0))
    throw new RangeError(
      `lengthOfSecond: expected a whole number of bytes, 0 or more, received ${lengthOfSecond}`,
    );
  const rest = (lengthOfSecond % ADLER_BASE) * ((first & 0xffff) + ADLER_BASE - 1);
  const a = ((first & 0xffff) + (second & 0xffff) + ADLER_BASE - 1) % ADLER_BASE;
  const b = ((first >>> 16) + (second >>> 16) + rest) % ADLER_BASE;
  return ((b << 16) | a) >>> 0;
};
