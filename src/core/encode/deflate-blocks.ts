/** Writing deflate blocks: tokens in, bits out, each block in whichever of the three forms is shortest. */
import {
  DISTANCES,
  END_OF_BLOCK,
  LITERALS,
  SHORTEST_MATCH,
  codeLengthOrder,
  distanceBase,
  distanceCode,
  distanceExtra,
  fixedDistanceLengths,
  fixedLengths,
  lengthBase,
  lengthCode,
  lengthExtra,
} from './deflate-tables.ts';
import { canonicalCodes, codeLengths } from './huffman.ts';

/**
 * What a block will say, with the counts that its codes are made from. A token is a literal, 0 … 255,
 * or a match: 256 + length − 3 in the low nine bits and the distance above bit 16.
 */
export interface Block {
  readonly tokens: Int32Array;
  count: number;
  readonly literalFrequency: Uint32Array;
  readonly distanceFrequency: Uint32Array;
  /** The bytes it stands for, should it be stored as they are. */
  rawFrom: number;
  rawTo: number;
}

export const emptyBlock = (tokens: number): Block => ({
  tokens: new Int32Array(tokens),
  count: 0,
  literalFrequency: new Uint32Array(LITERALS),
  distanceFrequency: new Uint32Array(DISTANCES),
  rawFrom: 0,
  rawTo: 0,
});

/** Bits into bytes, lowest first (RFC 1951, 3.1.1). Room must be enough: it does not grow. */
export class BitWriter {
  readonly bytes: Uint8Array<ArrayBuffer>;
  readonly view: DataView;
  /** Whole bytes written. */
  at = 0;
  /** Bits not yet a whole byte, and how many: always under 8. */
  held = 0;
  heldBits = 0;

  constructor(room: number) {
    this.bytes = new Uint8Array(room);
    this.view = new DataView(this.bytes.buffer);
  }

  /** @param bits 0 … 24. */
  put(value: number, bits: number): void {
    const all = this.held | (value << this.heldBits);
    const count = this.heldBits + bits;
    this.view.setInt32(this.at, all, true);
    this.at += count >> 3;
    this.held = all >>> (count & 24);
    this.heldBits = count & 7;
  }

  toWholeByte(): void {
    if (this.heldBits > 0) this.put(0, 8 - this.heldBits);
  }
}

/** Room that blocks of this many bytes can never exceed: stored, with every header and the flush. */
export const roomFor = (rawLength: number): number => rawLength + (rawLength >> 8) + 1024;

const LARGEST_STORED = 65535;

export const writeBlock = (out: BitWriter, raw: Uint8Array, block: Block): void => {
  const { literalFrequency, distanceFrequency, rawFrom, rawTo } = block;
  literalFrequency[END_OF_BLOCK] = 1;
  const literals = codeLengths(literalFrequency, 15);
  const distances = codeLengths(distanceFrequency, 15);
  const header = codesHeader(literals, distances);
  const dynamicBits = header.bits + bodyBits(block, literals, distances);
  const fixedBits = 3 + bodyBits(block, fixedLengths, fixedDistanceLengths);
  const pieces = Math.ceil((rawTo - rawFrom) / LARGEST_STORED);
  const storedBits = 8 * (rawTo - rawFrom) + pieces * 42;
  if (storedBits <= Math.min(dynamicBits, fixedBits)) writeStored(out, raw, rawFrom, rawTo);
  else if (fixedBits <= dynamicBits) {
    out.put(0b010, 3);
    writeBody(out, block, fixedLengths, fixedDistanceLengths);
  } else {
    writeHeader(out, header);
    writeBody(out, block, literals, distances);
  }
};

/** 3.2.4: stored pieces, each aligned to a byte. */
const writeStored = (out: BitWriter, raw: Uint8Array, from: number, to: number) => {
  for (let at = from; at < to; at += LARGEST_STORED) {
    const length = Math.min(LARGEST_STORED, to - at);
    out.put(0b000, 3);
    out.toWholeByte();
    out.put(length, 16);
    out.put(length ^ 0xffff, 16);
    out.bytes.set(raw.subarray(at, at + length), out.at);
    out.at += length;
  }
};

/** An empty stored block: ends the piece at a byte boundary so that another may follow (zlib's sync flush). */
export const writeFlush = (out: BitWriter): void => {
  out.put(0b000, 3);
  out.toWholeByte();
  out.put(0, 16);
  out.put(0xffff, 16);
};

const bodyBits = (block: Block, literals: Uint8Array, distances: Uint8Array): number => {
  let bits = 0;
  for (let symbol = 0; symbol < LITERALS; symbol += 1) {
    const extra = symbol > END_OF_BLOCK ? (lengthExtra[symbol - 257] as number) : 0;
    bits += (block.literalFrequency[symbol] as number) * ((literals[symbol] as number) + extra);
  }
  for (let code = 0; code < DISTANCES; code += 1)
    bits +=
      (block.distanceFrequency[code] as number) *
      ((distances[code] as number) + (distanceExtra[code] as number));
  return bits;
};

/** The codes of a dynamic block as 3.2.7 writes them. */
interface CodesHeader {
  readonly literalCount: number;
  readonly distanceCount: number;
  /** Pairs: a code length symbol, and the value of its extra bits. */
  readonly runs: readonly number[];
  readonly lengths: Uint8Array;
  readonly lengthCount: number;
  /** Of the whole header, block type included. */
  readonly bits: number;
}

const extraOf = (symbol: number): number =>
  symbol === 16 ? 2 : symbol === 17 ? 3 : symbol === 18 ? 7 : 0;

const codesHeader = (literals: Uint8Array, distances: Uint8Array): CodesHeader => {
  const literalCount = usedLength(literals, 257);
  const distanceCount = usedLength(distances, 1);
  const both = new Uint8Array(literalCount + distanceCount);
  both.set(literals.subarray(0, literalCount));
  both.set(distances.subarray(0, distanceCount), literalCount);
  const runs = runsOf(both);
  const frequency = new Uint32Array(19);
  for (let i = 0; i < runs.length; i += 2) {
    const symbol = runs[i] as number;
    frequency[symbol] = (frequency[symbol] as number) + 1;
  }
  const lengths = codeLengths(frequency, 7);
  let lengthCount = 19;
  while (lengthCount > 4 && lengths[codeLengthOrder[lengthCount - 1] as number] === 0)
    lengthCount -= 1;
  let bits = 3 + 14 + lengthCount * 3;
  for (let symbol = 0; symbol < 19; symbol += 1)
    bits += (frequency[symbol] as number) * ((lengths[symbol] as number) + extraOf(symbol));
  return { literalCount, distanceCount, runs, lengths, lengthCount, bits };
};

const usedLength = (lengths: Uint8Array, least: number): number => {
  let count = lengths.length;
  while (count > least && lengths[count - 1] === 0) count -= 1;
  return count;
};

/** Runs of equal code lengths: 16 repeats the last 3 to 6 times, 17 and 18 repeat zero. */
const runsOf = (lengths: Uint8Array): number[] => {
  const runs: number[] = [];
  for (let i = 0; i < lengths.length;) {
    const length = lengths[i] as number;
    let end = i + 1;
    while (end < lengths.length && lengths[end] === length) end += 1;
    let left = end - i;
    i = end;
    if (length > 0) {
      runs.push(length, 0);
      left -= 1;
    }
    while (left >= 3) {
      const most = length > 0 ? 6 : 138;
      const count = Math.min(left, most);
      if (length > 0) runs.push(16, count - 3);
      else if (count <= 10) runs.push(17, count - 3);
      else runs.push(18, count - 11);
      left -= count;
    }
    for (; left > 0; left -= 1) runs.push(length, 0);
  }
  return runs;
};

const writeHeader = (out: BitWriter, header: CodesHeader) => {
  out.put(0b100, 3);
  out.put(header.literalCount - 257, 5);
  out.put(header.distanceCount - 1, 5);
  out.put(header.lengthCount - 4, 4);
  for (let i = 0; i < header.lengthCount; i += 1)
    out.put(header.lengths[codeLengthOrder[i] as number] as number, 3);
  const codes = canonicalCodes(header.lengths);
  for (let i = 0; i < header.runs.length; i += 2) {
    const symbol = header.runs[i] as number;
    out.put(codes[symbol] as number, header.lengths[symbol] as number);
    out.put(header.runs[i + 1] as number, extraOf(symbol));
  }
};

/**
 * The tokens and the end of the block. This is where the time goes: the writer's state is kept in
 * plain variables, and its `put` is written out, so that the compiler holds them in registers.
 */
const writeBody = (out: BitWriter, block: Block, literals: Uint8Array, distances: Uint8Array) => {
  const codes = canonicalCodes(literals);
  const distanceCodes = canonicalCodes(distances);
  const { bits, size } = joinedCodes(codes, literals);
  const { tokens, count } = block;
  const { view } = out;
  let { at, held, heldBits } = out;
  for (let i = 0; i < count; i += 1) {
    const token = tokens[i] as number;
    const symbol = token & 511;
    held |= (bits[symbol] as number) << heldBits;
    heldBits += size[symbol] as number;
    view.setInt32(at, held, true);
    at += heldBits >> 3;
    held >>>= heldBits & 24;
    heldBits &= 7;
    if (symbol < 256) continue;
    const distance = token >>> 16;
    const code = distanceCode(distance);
    held |= (distanceCodes[code] as number) << heldBits;
    heldBits += distances[code] as number;
    view.setInt32(at, held, true);
    at += heldBits >> 3;
    held >>>= heldBits & 24;
    heldBits &= 7;
    held |= (distance - (distanceBase[code] as number)) << heldBits;
    heldBits += distanceExtra[code] as number;
    view.setInt32(at, held, true);
    at += heldBits >> 3;
    held >>>= heldBits & 24;
    heldBits &= 7;
  }
  out.at = at;
  out.held = held;
  out.heldBits = heldBits;
  out.put(codes[END_OF_BLOCK] as number, literals[END_OF_BLOCK] as number);
};

/** Codes by token: literals as they are, match lengths with their extra bits already joined on. */
const joinedCodes = (codes: Uint16Array, lengths: Uint8Array) => {
  const bits = new Int32Array(512);
  const size = new Uint8Array(512);
  for (let literal = 0; literal < 256; literal += 1) {
    bits[literal] = codes[literal] as number;
    size[literal] = lengths[literal] as number;
  }
  for (let i = 0; i < 256; i += 1) {
    const code = lengthCode[i] as number;
    const width = lengths[257 + code] as number;
    const extra = i + SHORTEST_MATCH - (lengthBase[code] as number);
    bits[256 + i] = (codes[257 + code] as number) | (extra << width);
    size[256 + i] = width + (lengthExtra[code] as number);
  }
  return { bits, size };
};
