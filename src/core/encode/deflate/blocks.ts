/** Writes deflate blocks (RFC 1951, 3.2), each in the shortest of the three forms. */
import { kernels } from '../../numeric/kernels.ts';
import type { BitWriter } from './bit-writer.ts';
import { codesHeader, writeHeader } from './codes.ts';
import type { DeflateRooms } from './rooms.ts';
import {
  COUNTS,
  DISTANCES_AT,
  DISTANCE_CODES_AT,
  LENGTHS_AT,
  LENGTH_CODES_AT,
  PAIRS_AT,
} from './rooms.ts';
import {
  DISTANCES,
  END_OF_BLOCK,
  LITERALS,
  SHORTEST_MATCH,
  distanceExtra,
  fixedDistanceLengths,
  fixedLengths,
  lengthBase,
  lengthCode,
  lengthExtra,
} from './tables.ts';
import { canonicalCodes, codeLengths } from './huffman.ts';

/** The block that a search fills: the same rooms for one after the other. */
export interface Block {
  readonly buffer: ArrayBuffer;
  readonly rooms: DeflateRooms;
  /** How often each thing occurs in it, and how many pairs it has: the searches count. */
  readonly counts: Uint32Array;
}

export const openBlock = (buffer: ArrayBuffer, rooms: DeflateRooms): Block => ({
  buffer,
  rooms,
  counts: new Uint32Array(buffer, rooms.counts, COUNTS),
});

const LARGEST_STORED = 65535;

/** Longest codes, bits: four literals, or a distance with its extra bits, fit one store of the kernel that writes. */
const LITERAL_LIMIT = 12;
const DISTANCE_LIMIT = 11;

/** Writes the block and empties it. @param from address of its first byte. @param to of the one after its last. */
export const writeBlock = (out: BitWriter, block: Block, from: number, to: number): void => {
  const { counts } = block;
  const symbols = symbolFrequency(counts);
  const distanceFrequency = counts.subarray(DISTANCES_AT, DISTANCES_AT + DISTANCES);
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
  if (storedBits <= Math.min(dynamicBits, fixedBits))
    writeStored(out, new Uint8Array(block.buffer, from, to - from));
  else if (fixedBits <= dynamicBits) {
    out.put(0b010, 3);
    writeBody(out, block, from, fixedLengths, fixedDistanceLengths);
  } else {
    writeHeader(out, header);
    writeBody(out, block, from, literals, distances);
  }
  counts.fill(0);
};

/** How often each literal, the end of the block and each length code occurs. */
const symbolFrequency = (counts: Uint32Array): Uint32Array => {
  const frequency = new Uint32Array(LITERALS);
  for (let i = 0; i < LENGTHS_AT; i += 1) frequency[i & 255] = frequency[i & 255]! + counts[i]!;
  frequency[END_OF_BLOCK] = 1;
  for (let i = 0; i < 256; i += 1) {
    const symbol = END_OF_BLOCK + 1 + lengthCode[i]!;
    frequency[symbol] = frequency[symbol]! + counts[LENGTHS_AT + i]!;
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
const writeStored = (out: BitWriter, raw: Uint8Array) => {
  for (let at = 0; at < raw.length; at += LARGEST_STORED) {
    const piece = raw.subarray(at, at + LARGEST_STORED);
    writeStoredHead(out, piece.length);
    out.putBytes(piece);
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

/** Writes the literals, the matches and the end of the block. */
const writeBody = (
  out: BitWriter,
  { buffer, rooms, counts }: Block,
  from: number,
  literals: Uint8Array,
  distances: Uint8Array,
) => {
  const codes = canonicalCodes(literals);
  const distanceCodes = canonicalCodes(distances);
  const table = new Uint32Array(buffer, rooms.codes, DISTANCE_CODES_AT + DISTANCES);
  for (let byte = 0; byte < 256; byte += 1) table[byte] = joined(codes[byte]!, literals[byte]!);
  for (let i = 0; i < 256; i += 1) {
    const code = lengthCode[i]!;
    const width = literals[257 + code]!;
    const extra = i + SHORTEST_MATCH - lengthBase[code]!;
    table[LENGTH_CODES_AT + i] = joined(
      codes[257 + code]! | (extra << width),
      width + lengthExtra[code]!,
    );
  }
  for (let code = 0; code < DISTANCES; code += 1)
    table[DISTANCE_CODES_AT + code] = joined(distanceCodes[code]!, distances[code]!);
  out.handOver((at, held) =>
    kernels().writeBody(from, rooms.pairs, counts[PAIRS_AT]!, rooms.codes, at, held),
  );
  out.put(codes[END_OF_BLOCK]!, literals[END_OF_BLOCK]!);
};

/** A code and its width in one number: a width needs five bits, a code at most twenty. */
const joined = (code: number, width: number): number => (code << 5) | width;
