/**
 * Sizes inside the chunks of an OpenEXR file whose packing states more than one ("OpenEXR File Layout";
 * PIZ and DWA as the reference library writes them). The reading library goes by them without looking
 * where the chunk ends: a wrong one would keep it busy for minutes, or for ever.
 */
import { u16le, u32le } from './bytes.ts';
import { huffmanFits } from './exr-huffman.ts';
import { damaged } from './image.ts';

const PIZ = 4;
const DWAA = 8;
const DWAB = 9;

/** Bounds of one chunk's packed data in the file. */
export interface ExrChunk {
  readonly from: number;
  readonly to: number;
  /** Bytes it holds unpacked; a chunk of that very size is not packed at all. */
  readonly rawBytes: number;
}

const u64le = (file: Uint8Array, at: number): number =>
  u32le(file, at) + u32le(file, at + 4) * 2 ** 32;

/** Least and most symbol, length of the table, bits of data, a spare: then table and data. */
const HUFFMAN_HEAD = 20;
const HUFFMAN_SYMBOLS = 65537;

const isHuffman = (
  file: Uint8Array,
  from: number,
  bytes: number,
  to: number,
  numbers: number,
): boolean =>
  bytes >= HUFFMAN_HEAD &&
  from + bytes <= to &&
  u32le(file, from) < HUFFMAN_SYMBOLS &&
  u32le(file, from + 4) < HUFFMAN_SYMBOLS &&
  u32le(file, from + 12) <= 8 * (bytes - HUFFMAN_HEAD) &&
  huffmanFits(
    file,
    from + HUFFMAN_HEAD,
    [u32le(file, from), u32le(file, from + 4)],
    u32le(file, from + 12),
    numbers,
  );

/** A bitmap of the values that occur, then Huffman codes. */
const isPiz = (file: Uint8Array, { from, to, rawBytes }: ExrChunk): boolean => {
  const [least, most] = [u16le(file, from), u16le(file, from + 2)];
  const lengthAt = from + 4 + (least <= most ? most - least + 1 : 0);
  return (
    lengthAt + 4 <= to && isHuffman(file, lengthAt + 4, u32le(file, lengthAt), to, rawBytes / 2)
  );
};

const DWA_HEAD = 88;

/** Names of channels, each with a zero and two bytes, that fill the list to its end. */
const rulesEnd = (file: Uint8Array, at: number, to: number): number | undefined => {
  const end = at + u16le(file, at);
  if (end > to || end < at + 2) return undefined;
  let next = at + 2;
  while (next < end) {
    const zero = file.indexOf(0, next);
    if (zero < 0 || zero + 3 > end) return undefined;
    next = zero + 3;
  }
  return next === end ? end : undefined;
};

/** Eleven numbers, the rules, then four pieces one behind the other. */
const isDwa = (file: Uint8Array, { from, to, rawBytes }: ExrChunk): boolean => {
  if (from + DWA_HEAD + 2 > to) return false;
  const head = Array.from({ length: 11 }, (_, i) => u64le(file, from + i * 8));
  const [, unknownRaw = 0, unknown = 0, ac = 0, dc = 0, rle = 0, rleOut = 0, rleRaw = 0] = head;
  const [acCount = 0, dcCount = 0, acPacking = 0] = head.slice(8);
  const start = rulesEnd(file, from + DWA_HEAD, to);
  // Blocks of eight by eight reach over the edges of the picture.
  const most = 64 * 1024 + rawBytes * 4;
  if (start === undefined || start + unknown + ac + dc + rle > to) return false;
  if ([unknownRaw, rleOut, rleRaw, acCount, dcCount].some((count) => count > most)) return false;
  return ac === 0 || acPacking !== 0 || isHuffman(file, start + unknown, ac, to, acCount);
};

/** @throws StudioError `damaged` */
export const checkExrChunk = (
  file: Uint8Array,
  compression: number,
  chunk: ExrChunk,
  name: string,
): void => {
  if (chunk.to - chunk.from >= chunk.rawBytes) return;
  const sound =
    (compression !== PIZ || isPiz(file, chunk)) &&
    ((compression !== DWAA && compression !== DWAB) || isDwa(file, chunk));
  if (!sound) throw damaged(name, 'rows of it are packed in a way that makes no sense');
};
