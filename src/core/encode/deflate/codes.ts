/** The header of a dynamic block, which describes its codes (RFC 1951, 3.2.7). */
import type { BitWriter } from './bit-writer.ts';
import { codeLengthOrder } from './tables.ts';
import { canonicalCodes, codeLengths } from './huffman.ts';

export interface CodesHeader {
  readonly literalCount: number;
  readonly distanceCount: number;
  /** Pairs of a code length symbol and the value of its extra bits. */
  readonly runs: readonly number[];
  readonly lengths: Uint8Array;
  readonly lengthCount: number;
  /** Size of the header, block type included. */
  readonly bits: number;
}

const extraOf = (symbol: number): number =>
  symbol === 16 ? 2 : symbol === 17 ? 3 : symbol === 18 ? 7 : 0;

/** The header for two sets of code lengths. */
export const codesHeader = (literals: Uint8Array, distances: Uint8Array): CodesHeader => {
  const literalCount = usedLength(literals, 257);
  const distanceCount = usedLength(distances, 1);
  const both = new Uint8Array(literalCount + distanceCount);
  both.set(literals.subarray(0, literalCount));
  both.set(distances.subarray(0, distanceCount), literalCount);
  const runs = runsOf(both);
  const frequency = new Uint32Array(19);
  for (let i = 0; i < runs.length; i += 2) {
    const symbol = runs[i]!;
    frequency[symbol] = frequency[symbol]! + 1;
  }
  const lengths = codeLengths(frequency, 7);
  let lengthCount = 19;
  while (lengthCount > 4 && lengths[codeLengthOrder[lengthCount - 1]!] === 0) lengthCount -= 1;
  let bits = 3 + 14 + lengthCount * 3;
  for (let symbol = 0; symbol < 19; symbol += 1)
    bits += frequency[symbol]! * (lengths[symbol]! + extraOf(symbol));
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
    const length = lengths[i]!;
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

export const writeHeader = (out: BitWriter, header: CodesHeader) => {
  out.put(0b100, 3);
  out.put(header.literalCount - 257, 5);
  out.put(header.distanceCount - 1, 5);
  out.put(header.lengthCount - 4, 4);
  for (let i = 0; i < header.lengthCount; i += 1) out.put(header.lengths[codeLengthOrder[i]!]!, 3);
  const codes = canonicalCodes(header.lengths);
  for (let i = 0; i < header.runs.length; i += 2) {
    const symbol = header.runs[i]!;
    out.put(codes[symbol]!, header.lengths[symbol]!);
    out.put(header.runs[i + 1]!, extraOf(symbol));
  }
};
