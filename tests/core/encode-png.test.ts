import { decode } from 'fast-png';
import fc from 'fast-check';
import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import { combineAdler32 } from '../../src/core/encode/checksum.ts';
import { filterBand, filterFor, rowFilters } from '../../src/core/encode/filter.ts';
import type { RowFilter } from '../../src/core/encode/filter.ts';
import { dotsPerMetre, pngBand, pngHead, pngTail } from '../../src/core/encode/png.ts';
import { deflateSegment } from '../../src/core/encode/segment.ts';

const picture = (width: number, height: number, seed = 1) => {
  let state = seed;
  return Uint8Array.from({ length: width * height * 3 }, () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state >>> 24;
  });
};

/** A file of the given bands, written as a sheet is. */
const fileOf = (
  pixels: Uint8Array,
  width: number,
  height: number,
  bandRows: number,
  filter: RowFilter,
) => {
  const rowBytes = width * 3;
  const parts: Uint8Array[] = [
    pngHead({ width, height, horizontalDpi: 720, verticalDpi: 360, title: 'Sea thrift' }),
  ];
  let adler = 1;
  for (let row = 0; row < height; row += bandRows) {
    const rows = pixels.subarray(row * rowBytes, Math.min(height, row + bandRows) * rowBytes);
    const above = row === 0 ? null : pixels.subarray((row - 1) * rowBytes, row * rowBytes);
    const segment = deflateSegment(filterBand(rows, rowBytes, above, filter));
    adler = combineAdler32(adler, segment.adler32, segment.rawLength);
    parts.push(pngBand(segment));
  }
  parts.push(pngTail(adler));
  return Buffer.concat(parts);
};

const chunksOf = (file: Buffer) => {
  const chunks: { type: string; data: Buffer }[] = [];
  for (let at = 8; at < file.length;) {
    const length = file.readUInt32BE(at);
    const data = file.subarray(at + 8, at + 8 + length);
    chunks.push({ type: file.toString('latin1', at + 4, at + 8), data });
    at += 12 + length;
  }
  return chunks;
};

describe('PNG sheet', () => {
  test('any size, any bands, any filter: libvips and fast-png read the same dots', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.integer({ min: 1, max: 40 }),
        fc.integer({ min: 1, max: 40 }),
        fc.integer({ min: 1, max: 40 }),
        fc.constantFrom(...(Object.keys(rowFilters) as RowFilter[])),
        async (width, height, bandRows, filter) => {
          const pixels = picture(width, height, width * height);
          const file = fileOf(pixels, width, height, bandRows, filter);
          const vips = await sharp(file).raw().toBuffer({ resolveWithObject: true });
          expect(vips.info).toMatchObject({ width, height, channels: 3 });
          expect(vips.data.equals(Buffer.from(pixels))).toBe(true);
          const fast = decode(file, { checkCrc: true });
          expect(Buffer.from(fast.data as Uint8Array).equals(Buffer.from(pixels))).toBe(true);
        },
      ),
      { numRuns: 40 },
    );
  });

  test('says its density along each side, and that it is sRGB, in every way decoders look for', () => {
    const chunks = chunksOf(fileOf(picture(3, 2), 3, 2, 1, 'up'));
    const types = chunks.map(({ type }) => type);
    // W3C PNG 3rd edition, 5.6: colour chunks and pHYs come before the first IDAT.
    for (const type of ['cICP', 'sRGB', 'gAMA', 'cHRM', 'pHYs'])
      expect(types.indexOf(type)).toBeLessThan(types.indexOf('IDAT'));
    expect(types[0]).toBe('IHDR');
    expect(types.at(-1)).toBe('IEND');
    expect(types).not.toContain('iCCP');
    const data = (type: string) => chunks.find((chunk) => chunk.type === type)?.data;
    // 11.3.2.6: 1, 13, 0, 1 is the section's own example for sRGB. 11.3.2.5: gAMA 45455 and these cHRM.
    expect([...(data('cICP') ?? [])]).toEqual([1, 13, 0, 1]);
    expect(data('gAMA')?.readUInt32BE(0)).toBe(45455);
    expect(Array.from({ length: 8 }, (_, i) => data('cHRM')?.readUInt32BE(i * 4))).toEqual([
      31270, 32900, 64000, 33000, 30000, 60000, 15000, 6000,
    ]);
    expect(data('pHYs')?.readUInt32BE(0)).toBe(28346);
    expect(data('pHYs')?.readUInt32BE(4)).toBe(14173);
    expect(data('pHYs')?.[8]).toBe(1);
  });

  // W3C PNG 3rd edition, pHYs: dots a metre, to the nearest.
  test.each([
    [300, 11811],
    [360, 14173],
    [600, 23622],
    [720, 28346],
    [1200, 47244],
    [1440, 56693],
    [2400, 94488],
  ])('%i dots an inch are %i a metre', (perInch, perMetre) => {
    expect(dotsPerMetre('horizontalDpi', perInch)).toBe(perMetre);
  });

  test('refuses impossible sheets by the name of the field', () => {
    const info = { width: 10, height: 10, horizontalDpi: 720, verticalDpi: 720 };
    expect(() => pngHead({ ...info, width: 0 })).toThrow(/width/);
    expect(() => pngHead({ ...info, height: 2 ** 31 })).toThrow(/height/);
    expect(() => pngHead({ ...info, verticalDpi: NaN })).toThrow(/verticalDpi/);
    expect(() => filterBand(new Uint8Array(7), 6, null, 'up')).toThrow();
  });

  test('the filter follows the ribs, and so leaves less than the other one would', () => {
    // Columns that each keep their colour down the sheet, as under upright ribs.
    const width = 300;
    const column = picture(width, 1);
    const upright = Buffer.concat(Array.from({ length: 60 }, () => column));
    const left = (filter: RowFilter) =>
      filterBand(upright, width * 3, null, filter).reduce(
        (sum, byte) => sum + Math.min(byte, 256 - byte),
        0,
      );
    // Only the first row, which has none above, and the filter numbers are left.
    expect(left(filterFor('upright')) * 20).toBeLessThan(left(filterFor('lying')));
  });
});
