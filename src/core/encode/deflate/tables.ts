/** Deflate's alphabets (RFC 1951, 3.2.5 and 3.2.6). */

export const END_OF_BLOCK = 256;
export const LITERALS = 286;
export const DISTANCES = 30;
export const SHORTEST_MATCH = 3;
export const LONGEST_MATCH = 258;
export const WINDOW = 32768;

/** Extra bits after length codes 257 … 285 and after distance codes 0 … 29. */
export const lengthExtra = Uint8Array.of(
  ...[0, 0, 0, 0, 0, 0, 0, 0, 1, 1, 1, 1, 2, 2, 2, 2, 3, 3, 3, 3, 4, 4, 4, 4, 5, 5, 5, 5, 0],
);
export const distanceExtra = Uint8Array.of(
  ...[0, 0, 0, 0, 1, 1, 2, 2, 3, 3, 4, 4, 5, 5, 6, 6, 7, 7, 8, 8, 9, 9, 10, 10, 11, 11, 12, 12],
  ...[13, 13],
);

const basesFrom = (first: number, extra: Uint8Array): Uint16Array => {
  let next = first;
  return Uint16Array.from(extra, (bits) => {
    const base = next;
    next += 1 << bits;
    return base;
  });
};
/** Shortest length of each code. Length 258 has a code of its own. */
export const lengthBase = basesFrom(SHORTEST_MATCH, lengthExtra).fill(LONGEST_MATCH, 28);

const lastNotAbove = (bases: Uint16Array, value: number): number => {
  let code = bases.length - 1;
  while (bases[code]! > value) code -= 1;
  return code;
};

/** Code of each match length minus 3, counted from 257. Length 256. */
export const lengthCode = Uint8Array.from({ length: 256 }, (_, i) =>
  lastNotAbove(lengthBase, i + SHORTEST_MATCH),
);

/**
 * Code lengths of a block with fixed codes (3.2.6). Symbols 286 and 287 never occur but take part in making the
 * codes. Length 288.
 */
export const fixedLengths = Uint8Array.from({ length: LITERALS + 2 }, (_, symbol) => {
  if (symbol < 144) return 8;
  if (symbol < 256) return 9;
  return symbol < 280 ? 7 : 8;
});
export const fixedDistanceLengths = new Uint8Array(DISTANCES).fill(5);

/** The order in which the code lengths of the code lengths are written (3.2.7). */
export const codeLengthOrder = Uint8Array.of(
  ...[16, 17, 18, 0, 8, 7, 9, 6, 10, 5, 11, 4, 12, 3, 13, 2, 14, 1, 15],
);
