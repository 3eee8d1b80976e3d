/** A TIFF directory and its fields (TIFF 6.0, section 2), plain or BigTIFF, low byte first. */
import { plainText, utf8 } from './bytes.ts';

/** What differs between plain TIFF and BigTIFF. */
export interface Layout {
  readonly magic: 42 | 43;
  /** Bytes of an offset and of a count; a value no longer than this stands in its entry. */
  readonly wordBytes: 4 | 8;
  /** Bytes of the number of entries. */
  readonly countBytes: 2 | 8;
}

export const CLASSIC: Layout = { magic: 42, wordBytes: 4, countBytes: 2 };
export const BIG: Layout = { magic: 43, wordBytes: 8, countBytes: 8 };

/** Field types, section 2; LONG8 is from BigTIFF. */
const ASCII = 2;
const SHORT = 3;
const LONG = 4;
const RATIONAL = 5;
const LONG8 = 16;

export interface Entry {
  readonly tag: number;
  readonly type: number;
  readonly count: number;
  readonly data: Uint8Array;
}

const numbers = (
  tag: number,
  type: number,
  values: readonly number[],
  width: number,
  put: (view: DataView, at: number, value: number) => void,
): Entry => {
  const data = new Uint8Array(values.length * width);
  const view = new DataView(data.buffer);
  values.forEach((value, i) => put(view, i * width, value));
  return { tag, type, count: values.length, data };
};

export const short = (tag: number, values: readonly number[]): Entry =>
  numbers(tag, SHORT, values, 2, (view, at, value) => view.setUint16(at, value, true));

export const long = (tag: number, values: readonly number[]): Entry =>
  numbers(tag, LONG, values, 4, (view, at, value) => view.setUint32(at, value, true));

/** File offsets, as wide as the layout’s words. */
export const offsets = (tag: number, values: readonly number[], layout: Layout): Entry =>
  layout === BIG
    ? numbers(tag, LONG8, values, 8, (view, at, value) =>
        view.setBigUint64(at, BigInt(value), true),
      )
    : long(tag, values);

/**
 * One rational. Its denominator is the smallest power of ten that gives the value exactly, as far as four bytes
 * allow.
 * @param value 0 … 2³² − 1.
 */
export const rational = (tag: number, value: number): Entry => {
  let over = 1;
  while (Math.round(value * over) !== value * over && Math.round(value * over * 10) < 2 ** 32)
    over *= 10;
  return { ...long(tag, [Math.round(value * over), over]), type: RATIONAL, count: 1 };
};

export const raw = (tag: number, type: number, data: Uint8Array): Entry => ({
  tag,
  type,
  count: data.length,
  data,
});

/** @param value ASCII only; a zero byte follows it. */
export const ascii = (tag: number, value: string): Entry =>
  raw(tag, ASCII, Uint8Array.from([...utf8(value), 0]));

/** Section 2 allows seven bits only: accents are dropped, other characters become "?". */
export const asciiText = (value: string): string =>
  plainText(value)
    .normalize('NFKD')
    .replace(/\p{M}+/gu, '')
    .replace(/[\u2010-\u2015]/g, '-')
    .replace(/[^\n\x20-\x7e]/gu, '?');

/**
 * The directory, followed by the values that are too long for their entries.
 * @param start offset of the directory in the file, a multiple of 8.
 * @param entries sorted by tag.
 */
export const directoryAt = (
  start: number,
  entries: readonly Entry[],
  layout: Layout,
): Uint8Array<ArrayBuffer> => {
  const { wordBytes, countBytes } = layout;
  const entryBytes = 4 + 2 * wordBytes;
  const tableBytes = countBytes + entries.length * entryBytes + wordBytes;
  const room = (data: Uint8Array) => (data.length > wordBytes ? (data.length + 7) & ~7 : 0);
  const first = (tableBytes + 7) & ~7;
  const bytes = new Uint8Array(entries.reduce((sum, { data }) => sum + room(data), first));
  const view = new DataView(bytes.buffer);
  const putWord = (at: number, value: number) =>
    wordBytes === 8 ? view.setBigUint64(at, BigInt(value), true) : view.setUint32(at, value, true);
  // The high bytes of a wide entry count stay zero; so does the offset of a next directory.
  view.setUint16(0, entries.length, true);
  let valuesAt = first;
  entries.forEach(({ tag, type, count, data }, i) => {
    const at = countBytes + i * entryBytes;
    view.setUint16(at, tag, true);
    view.setUint16(at + 2, type, true);
    putWord(at + 4, count);
    if (room(data) === 0) bytes.set(data, at + 4 + wordBytes);
    else {
      putWord(at + 4 + wordBytes, start + valuesAt);
      bytes.set(data, valuesAt);
      valuesAt += room(data);
    }
  });
  return bytes;
};
