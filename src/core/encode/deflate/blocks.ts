/** Writes deflate blocks (RFC 1951, 3.2), each in the shortest of the three forms. */
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
 * The content of a block: runs of plain bytes (literals), each followed by a match, and the counts that its codes are
 * made from. The bytes themselves stay in the caller’s buffer.
 */
export interface Block {
  /** How many plain bytes stand before each match. */
  readonly plain: Int32Array;
  /** Each match: distance from bit 16 up, length minus 3 below. `NO_MATCH` after the last run. */
  readonly match: Int32Array;
  count: number;
  /**
   * How often each byte is plain: four tables of 256 end to end, used in turn. Counting twice in the same place would
   * make the second count wait for the first.
   */
  readonly byteCounts: Uint32Array;
  /** How often each match length occurs, counted from 3. */
  readonly lengthCounts: Uint32Array;
  readonly distanceFrequency: Uint32Array;
  /** The bytes that it encodes: from here up to there. */
  from: number;
  to: number;
}

/** Distance 0, which no match has. */
export const NO_MATCH = 0;

/** @param matches how many it can hold. */
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

/** Upper limit, in bytes, of the blocks for this many bytes: stored, with all headers and the flush. */
export const roomFor = (rawLength: number): number => rawLength + (rawLength >> 8) + 1024;

const LARGEST_STORED = 65535;

/** Longest codes, bits: two literals, or a distance with its extra bits, fit one `setInt32` of the writer. */
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

/** How often each literal, the end of the block and each length code occurs. */
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

/** Bits of all symbols together; symbols from `first` on have extra bits. */
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
    writeStoredHead(out, length);
    out.putBytes(raw.subarray(at, at + length));
  }
};

const writeStoredHead = (out: BitWriter, length: number) => {
  out.put(0b000, 3);
  out.toWholeByte();
  out.put(length, 16);
  out.put(length ^ 0xffff, 16);
};

/** zlib's sync flush: an empty stored block ends the piece at a byte boundary, so that another can follow. */
export const writeFlush = (out: BitWriter): void => writeStoredHead(out, 0);

/**
 * Writes the literals, the matches and the end of the block. Most time is spent here: the writer’s state is kept in
 * local variables and its `put` is inlined, so that the compiler uses registers.
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
    // One byte may be left. The processor cannot predict it, so a mask takes the place of a branch.
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

/** A code and its width in one number: a width needs five bits, a code at most twenty. */
const joined = (code: number, width: number): number => (code << 5) | width;
