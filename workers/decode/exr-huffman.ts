/**
 * Counts what a Huffman stream of OpenEXR stands for ("OpenEXR File Layout"; ImfHuf of the reference
 * library), keeping nothing. The reading library never comes back from a stream that holds more than there
 * is room for, so that is found out beforehand.
 */

const SYMBOLS = 65537;
const LONGEST = 58;
/** Lengths from here on stand for runs of symbols that do not occur. */
const SHORT_RUN = 59;
const LONG_RUN = 63;
const SHORTEST_LONG_RUN = 2 + LONG_RUN - SHORT_RUN;
/** Codes of up to so many bits are looked up at once. */
const PEEK_BITS = 14;

/** Bits from the highest down; beyond the end there are zeros. */
class Bits {
  at: number;
  readonly #bytes: Uint8Array;

  constructor(bytes: Uint8Array, from: number) {
    this.#bytes = bytes;
    this.at = from * 8;
  }

  /** Up to 17 bits that come next, without moving on. */
  peek(count: number): number {
    const byte = this.at >>> 3;
    const b = this.#bytes;
    const word = ((b[byte] ?? 0) << 16) | ((b[byte + 1] ?? 0) << 8) | (b[byte + 2] ?? 0);
    return (word >>> (24 - count - (this.at & 7))) & ((1 << count) - 1);
  }

  take(count: number): number {
    const value = this.peek(count);
    this.at += count;
    return value;
  }
}

/** Length of each symbol's code; undefined when they run past their end. */
const readLengths = (bits: Bits, least: number, most: number): Uint8Array | undefined => {
  const lengths = new Uint8Array(SYMBOLS);
  for (let symbol = least; symbol <= most; symbol += 1) {
    const length = bits.take(6);
    if (length < SHORT_RUN) {
      lengths[symbol] = length;
      continue;
    }
    const run = length === LONG_RUN ? bits.take(8) + SHORTEST_LONG_RUN : length - SHORT_RUN + 2;
    symbol += run - 1;
    if (symbol > most) return undefined;
  }
  return lengths;
};

interface Codes {
  /** By length: the first code and how many there are. The longer, the lower. */
  readonly first: Float64Array;
  readonly count: Float64Array;
  /** Length by the next bits; 0 for longer codes and for none. */
  readonly peeked: Uint8Array;
  readonly run: { readonly length: number; readonly code: number };
}

const codesOf = (lengths: Uint8Array, runSymbol: number): Codes => {
  const count = new Float64Array(LONGEST + 1);
  let beforeRun = 0;
  const runLength = lengths[runSymbol] ?? 0;
  for (let symbol = 0; symbol < SYMBOLS; symbol += 1) {
    const length = lengths[symbol]!;
    if (length === 0) continue;
    count[length]! += 1;
    if (length === runLength && symbol < runSymbol) beforeRun += 1;
  }
  const first = new Float64Array(LONGEST + 1);
  for (let length = LONGEST, code = 0; length > 0; length -= 1) {
    first[length] = code;
    code = Math.floor((code + count[length]!) / 2);
  }
  const peeked = new Uint8Array(1 << PEEK_BITS);
  for (let length = 1; length <= PEEK_BITS; length += 1) {
    const width = 1 << (PEEK_BITS - length);
    const from = first[length]! * width;
    peeked.fill(length, from, from + count[length]! * width);
  }
  return { first, count, peeked, run: { length: runLength, code: first[runLength]! + beforeRun } };
};

/** Length of the code that comes next, 0 where there is none. */
const longLength = (bits: Bits, { first, count }: Codes): number => {
  const start = bits.at;
  let code = 0;
  for (let length = 1; length <= LONGEST; length += 1) {
    code = code * 2 + bits.take(1);
    if (length <= PEEK_BITS) continue;
    const rank = code - first[length]!;
    if (rank >= 0 && rank < count[length]!) {
      bits.at = start;
      return length;
    }
  }
  bits.at = start;
  return 0;
};

/**
 * True when the stream ends, or makes no sense, before it has given more than `most` numbers.
 * @param from its first byte after the twenty of its head
 * @param dataBits as its head states them
 */
export const huffmanFits = (
  file: Uint8Array,
  from: number,
  [least, runSymbol]: readonly [number, number],
  dataBits: number,
  most: number,
): boolean => {
  const bits = new Bits(file, from);
  const lengths = readLengths(bits, least, runSymbol);
  if (lengths === undefined) return true;
  const codes = codesOf(lengths, runSymbol);
  bits.at = Math.ceil(bits.at / 8) * 8;
  const end = bits.at + dataBits;
  let numbers = 0;
  while (bits.at < end) {
    const length = codes.peeked[bits.peek(PEEK_BITS)]! || longLength(bits, codes);
    if (length === 0) return true;
    const isRun =
      length === codes.run.length && length <= 17 && bits.peek(length) === codes.run.code;
    bits.at += length;
    numbers += isRun ? bits.take(8) : 1;
    if (numbers > most) return false;
  }
  return true;
};
