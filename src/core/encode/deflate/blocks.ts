/** Writing deflate blocks (RFC 1951, 3.2), each in whichever of the three forms is shortest. */
import type { BitWriter } from './bit-writer.ts';
import { codesHeader, writeHeader } from './codes.ts';
import {
  DISTANCES,
  END_OF_BLOCK,
  LITERALS,
  SHORTEST_MATCH,
  distanceBase,
  distanceCode,
  distanceExtra,
  fixedDistanceLengths,
  fixedLengths,
  lengthBase,
  lengthCode,
  lengthExtra,
} from './tables.ts';
import { canonicalCodes, codeLengths } from './huffman.ts';

/**
 * What a block will say: stretches of bytes as they are, each followed by a match, and the counts
 * that the block's codes are made from. The bytes themselves stay where they are.
 */
export interface Block {
  /** Bytes as they are before each match. */
  readonly plain: Int32Array;
  /** Each match: distance above bit 16, length less 3 below. `NO_MATCH` after the last stretch. */
  readonly match: Int32Array;
  count: number;
  /**
   * How often each byte stands as it is: four tables of 256 end to end, to be used in turn, since
   * counting twice in one place makes the second wait for the first.
   */
  readonly byteCounts: Uint32Array;
  /** How often each match length occurs, less 3. */
  readonly lengthCounts: Uint32Array;
  readonly distanceFrequency: Uint32Array;
  /** The bytes it stands for: from here to there. */
  from: number;
  to: number;
}

/** No match has distance 0. */
export const NO_MATCH = 0;

/** @param matches the most it can hold. */
export const emptyBlock = (matches: number): Block => ({
  plain: new Int32Array(matches + 1),
  match: new Int32Array(matches + 1),
  count: 0,
  byteCounts: new Uint32Array(4 * 256),
  lengthCounts: new Uint32Array(256),
  distanceFrequency: new Uint32Array(DISTANCES),
  from: 0,
  to: 0,
});

/**
 * Room that blocks of this many bytes can never exceed: stored, with every header and the flush.
 */
export const roomFor = (rawLength: number): number => rawLength + (rawLength >> 8) + 1024;

const LARGEST_STORED = 65535;

/**
 * Longest codes this writer makes: two literals, or a distance with its extra bits, fit one turn of
 * the writer.
 */
const LITERAL_LIMIT = 12;
const DISTANCE_LIMIT = 11;

/** Writes the block and empties it. */
export const writeBlock = (out: BitWriter, bytes: Uint8Array, block: Block): void => {
  const { distanceFrequency, from, to } = block;
  const symbols = symbolFrequency(block);
  const literals = codeLengths(symbols, LITERAL_LIMIT);
  const distances = codeLengths(distanceFrequency, DISTANCE_LIMIT);
  const header = codesHeader(literals, distances);
  const bodyBits = (l: Uint8Array, d: Uint8Array) =>
    costOf(symbols, l, lengthExtra, END_OF_BLOCK + 1) +
    costOf(distanceFrequency, d, distanceExtra, 0);
  const dynamicBits = header.bits + bodyBits(literals, distances);
  const fixedBits = 3 + bodyBits(fixedLengths, fixedDistanceLengths);
  const pieces = Math.ceil((to - from) / LARGEST_STORED);
  const storedBits = 8 * (to - from) + pieces * 42;
  if (storedBits <= Math.min(dynamicBits, fixedBits)) writeStored(out, bytes, from, to);
  else if (fixedBits <= dynamicBits) {
    out.put(0b010, 3);
    writeBody(out, bytes, block, fixedLengths, fixedDistanceLengths);
  } else {
    writeHeader(out, header);
    writeBody(out, bytes, block, literals, distances);
  }
  block.count = 0;
  block.byteCounts.fill(0);
  block.lengthCounts.fill(0);
  distanceFrequency.fill(0);
};

/** Bytes, the end of the block, and lengths by their codes. */
const symbolFrequency = ({ byteCounts, lengthCounts }: Block): Uint32Array => {
  const frequency = new Uint32Array(LITERALS);
  for (let i = 0; i < byteCounts.length; i += 1)
    frequency[i & 255] = frequency[i & 255]! + byteCounts[i]!;
  frequency[END_OF_BLOCK] = 1;
  for (let i = 0; i < lengthCounts.length; i += 1) {
    const symbol = END_OF_BLOCK + 1 + lengthCode[i]!;
    frequency[symbol] = frequency[symbol]! + lengthCounts[i]!;
  }
  return frequency;
};

/** Bits that symbols take in all; those from `first` on carry extra bits. */
const costOf = (frequency: Uint32Array, lengths: Uint8Array, extra: Uint8Array, first: number) => {
  let bits = 0;
  for (let symbol = 0; symbol < frequency.length; symbol += 1) {
    const more = symbol < first ? 0 : extra[symbol - first]!;
    bits += frequency[symbol]! * (lengths[symbol]! + more);
  }
  return bits;
};

/** 3.2.4: stored pieces, each aligned to a byte. */
const writeStored = (out: BitWriter, raw: Uint8Array, from: number, to: number) => {
  for (let at = from; at < to; at += LARGEST_STORED) {
    const length = Math.min(LARGEST_STORED, to - at);
    out.put(0b000, 3);
    out.toWholeByte();
    out.put(length, 16);
    out.put(length ^ 0xffff, 16);
    out.putBytes(raw.subarray(at, at + length));
  }
};

/**
 * An empty stored block: ends the piece at a byte boundary so that another may follow (zlib's sync
 * flush).
 */
export const writeFlush = (out: BitWriter): void => {
  out.put(0b000, 3);
  out.toWholeByte();
  out.put(0, 16);
  out.put(0xffff, 16);
};

/**
 * The bytes and matches and the end of the block. This is where the time goes: the writer's state
 * is kept in plain variables, and its `put` is written out, so that the compiler holds them in
 * registers.
 */
const writeBody = (
  out: BitWriter,
  bytes: Uint8Array,
  block: Block,
  literals: Uint8Array,
  distances: Uint8Array,
) => {
  const codes = canonicalCodes(literals);
  const distanceCodes = canonicalCodes(distances);
  const byteCodes = Int32Array.from({ length: 256 }, (_, byte) =>
    joined(codes[byte]!, literals[byte]!),
  );
  const lengthCodes = Int32Array.from({ length: 256 }, (_, i) => {
    const code = lengthCode[i]!;
    const width = literals[257 + code]!;
    const extra = i + SHORTEST_MATCH - lengthBase[code]!;
    return joined(codes[257 + code]! | (extra << width), width + lengthExtra[code]!);
  });
  const { plain, match, count } = block;
  const { view } = out;
  let { at, held, heldBits } = out;
  let from = block.from;
  for (let i = 0; i < count; i += 1) {
    const end = from + plain[i]!;
    for (; from < end - 1; from += 2) {
      const first = byteCodes[bytes[from]!]!;
      const second = byteCodes[bytes[from + 1]!]!;
      held |= (first >>> 5) << heldBits;
      heldBits += first & 31;
      held |= (second >>> 5) << heldBits;
      heldBits += second & 31;
      view.setInt32(at, held, true);
      at += heldBits >> 3;
      held >>>= heldBits & 24;
      heldBits &= 7;
    }
    // One byte may be left. The processor cannot foresee whether, so no branch: else no bits.
    const last = byteCodes[bytes[from]!]! & ((from - end) >> 31);
    held |= (last >>> 5) << heldBits;
    heldBits += last & 31;
    view.setInt32(at, held, true);
    at += heldBits >> 3;
    held >>>= heldBits & 24;
    heldBits &= 7;
    const pair = match[i]!;
    if (pair === NO_MATCH) break;
    const length = lengthCodes[pair & 255]!;
    held |= (length >>> 5) << heldBits;
    heldBits += length & 31;
    view.setInt32(at, held, true);
    at += heldBits >> 3;
    held >>>= heldBits & 24;
    heldBits &= 7;
    const distance = pair >>> 16;
    const code = distanceCode(distance);
    const width = distances[code]!;
    const extra = distance - distanceBase[code]!;
    held |= (distanceCodes[code]! | (extra << width)) << heldBits;
    heldBits += width + distanceExtra[code]!;
    view.setInt32(at, held, true);
    at += heldBits >> 3;
    held >>>= heldBits & 24;
    heldBits &= 7;
    from = end + (pair & 255) + SHORTEST_MATCH;
  }
  out.at = at;
  out.held = held;
  out.heldBits = heldBits;
  out.put(codes[END_OF_BLOCK]!, literals[END_OF_BLOCK]!);
};

/** A code and its width in one number: widths need five bits, no code more than twenty. */
const joined = (code: number, width: number): number => (code << 5) | width;
