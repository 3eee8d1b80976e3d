/** A PDF sheet's file: put together from any pixels, opened with pdf.js, and taken apart by hand. */
import { inflateSync } from 'node:zlib';
import { decode } from 'fast-png';
import { VerbosityLevel, getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { expect } from 'vitest';
import { crc32 } from '../../../src/core/encode/checksum.ts';
import { pdfWriter } from '../../../src/core/encode/pdf.ts';
import type { RowWriter, SheetInfo } from '../../../src/core/encode/row-writer.ts';
import { channelsOf } from '../../../src/core/encode/row-writer.ts';
import { fileOf, scrambled } from './sheet-file.ts';

export const info = (width: number, height: number, more: Partial<SheetInfo> = {}): SheetInfo => ({
  width,
  height,
  horizontalDpi: 720,
  verticalDpi: 360,
  ...more,
});

export const pdfOf = (sheet: SheetInfo, rowsInBand = 7, open?: RowWriter['open']) => {
  const pixels = scrambled(sheet.width, sheet.height, 1, channelsOf(sheet));
  return { pixels, file: fileOf(pdfWriter, pixels, { info: sheet, rowsInBand }, open) };
};

export const openWithPdfjs = async (file: Buffer) => {
  const document = await getDocument({
    data: new Uint8Array(file),
    stopAtErrors: true,
    verbosity: VerbosityLevel.ERRORS,
  }).promise;
  return { document, page: await document.getPage(1) };
};

/** One object as it stands in the file: its words, and its stream if it has one. */
export const objectOf = (file: Buffer, number: number) => {
  const text = file.toString('latin1');
  const start = text.indexOf(`\n${number} 0 obj\n`) + 1;
  expect(start).toBeGreaterThan(0);
  const body = text.slice(start, text.indexOf('endobj', start));
  const dictionary = body.split('\nstream\n')[0] ?? '';
  const length = /\/Length (\d+)( 0 R)?/.exec(dictionary);
  const from = start + dictionary.length + '\nstream\n'.length;
  const bytes = (): Buffer => {
    const count: number =
      length?.[2] === undefined
        ? Number(length?.[1])
        : Number(/obj\n(\d+)\n/.exec(objectOf(file, Number(length[1])).dictionary)?.[1]);
    // ISO 32000-1, 7.3.8.1: an end of line and "endstream" behind the bytes that Length counts.
    expect(text.slice(from + count, from + count + 11)).toBe('\nendstream\n');
    return file.subarray(from, from + count);
  };
  return { dictionary, bytes };
};

/** The stream of the picture in a PNG made by hand, so that a PNG reader undoes PNG's filters. */
const pngAround = ({ width, height, ...sheet }: SheetInfo, stream: Buffer) => {
  const chunk = (type: string, data: Buffer) => {
    const body = Buffer.concat([Buffer.from(type, 'latin1'), data]);
    const ends = Buffer.alloc(8);
    ends.writeUInt32BE(data.length, 0);
    ends.writeUInt32BE(crc32(body), 4);
    return Buffer.concat([ends.subarray(0, 4), body, ends.subarray(4)]);
  };
  const header = Buffer.alloc(13);
  header.writeUInt32BE(width, 0);
  header.writeUInt32BE(height, 4);
  // RGBA has as many bytes a dot as CMYK.
  header.set([8, { 1: 0, 3: 2, 4: 6 }[channelsOf(sheet)], 0, 0, 0], 8);
  return Buffer.concat([
    Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]),
    chunk('IHDR', header),
    chunk('IDAT', stream),
    chunk('IEND', Buffer.alloc(0)),
  ]);
};

/** @param picture number of its object */
export const pictureOf = (file: Buffer, sheet: SheetInfo, picture = 6) => {
  const { width, height } = sheet;
  const stream = objectOf(file, picture).bytes();
  // zlib checks the Adler-32 of the whole; a filter number and the dots in each row.
  expect(inflateSync(stream)).toHaveLength(height * (width * channelsOf(sheet) + 1));
  return Buffer.from(decode(pngAround(sheet, stream)).data as Uint8Array);
};
