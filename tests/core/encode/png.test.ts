import { decode } from 'fast-png';
import fc from 'fast-check';
import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import { combineAdler32 } from '../../../src/core/encode/checksum.ts';
import { filterBand, rowFilters } from '../../../src/core/encode/filter.ts';
import type { RowFilter } from '../../../src/core/encode/filter.ts';
import { dotsPerMetre, pngBand, pngHead, pngTail } from '../../../src/core/encode/png.ts';
import { deflateSegment, filteredSegment } from '../../../src/core/encode/deflate/segment.ts';
import { chooseCompression } from '../../../src/core/encode/compression.ts';
import type { Ribs } from '../../../src/core/weave/sheet-spec.ts';

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
  ])('%i dpi are %i a metre', (perInch, perMetre) => {
    expect(dotsPerMetre('horizontalDpi', perInch)).toBe(perMetre);
  });

  test('refuses impossible sheets by the name of the field', () => {
    const info = { width: 10, height: 10, horizontalDpi: 720, verticalDpi: 720 };
    expect(() => pngHead({ ...info, width: 0 })).toThrow(/width/);
    expect(() => pngHead({ ...info, height: 2 ** 31 })).toThrow(/height/);
    expect(() => pngHead({ ...info, verticalDpi: NaN })).toThrow(/verticalDpi/);
    expect(() => filterBand(new Uint8Array(7), 6, null, 'up')).toThrow();
  });

  test('each filter is as 9.2 to 9.4 define it', () => {
    // The section's own definitions, byte by byte and with Paeth's branches as written there.
    const nearest = (a: number, b: number, c: number) => {
      const p = a + b - c;
      const [pa, pb, pc] = [a, b, c].map((value) => Math.abs(p - value)) as [
        number,
        number,
        number,
      ];
      return pa <= pb && pa <= pc ? a : pb <= pc ? b : c;
    };
    const predictors: Record<RowFilter, (a: number, b: number, c: number) => number> = {
      none: () => 0,
      sub: (a) => a,
      up: (_, b) => b,
      paeth: nearest,
    };
    const bytes = (length: number) => fc.uint8Array({ minLength: length, maxLength: length });
    fc.assert(
      fc.property(
        fc
          .integer({ min: 1, max: 9 })
          .chain((pixels) => fc.tuple(bytes(pixels * 3), bytes(pixels * 3))),
        fc.constantFrom(...(Object.keys(rowFilters) as RowFilter[])),
        ([above, here], filter) => {
          const expected = here.map((value, i) => {
            const left = (row: Uint8Array) => (i < 3 ? 0 : (row[i - 3] as number));
            return value - predictors[filter](left(here), above[i] as number, left(above));
          });
          expect([...filterBand(here, here.length, above, filter)]).toEqual([
            rowFilters[filter],
            ...expected,
          ]);
        },
      ),
    );
  });
});

/** A demo scene's twelve frames under ribs of twelve dots, row-major RGB. */
const woven = async (scene: string, ribs: Ribs, width: number, height: number) => {
  const sheet = Buffer.alloc(width * height * 3);
  const upright = ribs === 'upright';
  for (let view = 0; view < 12; view += 1) {
    const name = `${scene}_${String(view + 1).padStart(2, '0')}.png`;
    const frame = await sharp(
      new URL(`../../../demo-scenes/${scene}/${name}`, import.meta.url).pathname,
    )
      .removeAlpha()
      .resize({
        width: upright ? width / 12 : width,
        height: upright ? height : height / 12,
        fit: 'fill',
        kernel: 'cubic',
      })
      .raw()
      .toBuffer();
    // The picture under a rib is mirrored (optics relation 3).
    const place = 11 - view;
    const stretch = upright ? 3 : width * 3;
    for (let at = 0; at < frame.length; at += stretch)
      frame.copy(sheet, at * 12 + place * stretch, at, at + stretch);
  }
  return sheet;
};

describe('the way a band is written', () => {
  const width = 1440;
  const height = 1800;
  const rowBytes = width * 3;
  const bandOf = (rows: Uint8Array, ribs: Ribs) => ({ rows, rowBytes, above: null, ribs });

  test('under lying ribs, frames that share a still background are looked at both ways', () => {
    const grain = picture(width, 1);
    const rows = Buffer.concat(Array.from({ length: 40 }, () => grain));
    expect(chooseCompression(bandOf(rows, 'lying')).filter).toBe('paeth');
  });

  test('otherwise the filter follows the ribs', async () => {
    const upright = await woven('kingfisher', 'upright', width, height);
    expect(chooseCompression(bandOf(upright, 'upright')).filter).toBe('up');
    const lying = await woven('lighthouse', 'lying', width, height);
    expect(chooseCompression(bandOf(lying, 'lying')).filter).toBe('sub');
  });

  test.each<[string, Ribs]>([
    ['glasshouse', 'upright'],
    ['glasshouse', 'lying'],
    ['kingfisher', 'upright'],
    ['kingfisher', 'lying'],
    ['lighthouse', 'upright'],
    ['lighthouse', 'lying'],
  ])('the %s, ribs %s: the same dots, in no more bytes than libvips takes', async (scene, ribs) => {
    const pixels = await woven(scene, ribs, width, height);
    const segment = filteredSegment(bandOf(pixels, ribs));
    const info = { width, height, horizontalDpi: 720, verticalDpi: 720 };
    const file = Buffer.concat([pngHead(info), pngBand(segment), pngTail(segment.adler32)]);
    expect((await sharp(file).raw().toBuffer()).equals(pixels)).toBe(true);
    const vips = await sharp(pixels, { raw: { width, height, channels: 3 } })
      .png({ compressionLevel: 6, adaptiveFiltering: true })
      .toBuffer();
    // One in a hundred is allowed for: the searches are several times as fast as that level's.
    expect(file.length).toBeLessThanOrEqual(vips.length * 1.01);
  });
});
