/** TIFF sheets, read by libtiff (through sharp) and by geotiff, which share no code with each other or us. */
import fc from 'fast-check';
import { fromArrayBuffer } from 'geotiff';
import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import type { SheetFile, SheetInfo } from '../../../src/core/encode/row-writer.ts';
import { srgbProfile } from '../../../src/core/encode/srgb-profile.ts';
import { openTiff, tiffWriter } from '../../../src/core/encode/tiff.ts';
import { fileOf, scrambled } from './sheet-file.ts';

const info = (width: number, height: number, more: Partial<SheetInfo> = {}): SheetInfo => ({
  width,
  height,
  horizontalDpi: 720,
  verticalDpi: 360,
  ...more,
});

const openWithGeotiff = async (file: Buffer) => {
  const image = await (await fromArrayBuffer(new Uint8Array(file).buffer)).getImage();
  const field = (name: string): unknown => image.fileDirectory.getValue(name as 'ImageWidth');
  const pixels = Buffer.from((await image.readRasters({ interleave: true })) as Uint8Array);
  return { pixels, field };
};

const expectDots = async (file: Buffer, pixels: Uint8Array, width: number, height: number) => {
  const vips = await sharp(file).raw().toBuffer({ resolveWithObject: true });
  expect(vips.info).toMatchObject({ width, height, channels: 3 });
  expect(vips.data.equals(Buffer.from(pixels))).toBe(true);
  expect((await openWithGeotiff(file)).pixels.equals(Buffer.from(pixels))).toBe(true);
};

describe('TIFF sheet', () => {
  test('any size, any bands, either kind of file: two readers read the same dots', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.integer({ min: 1, max: 40 }),
        fc.integer({ min: 1, max: 40 }),
        fc.integer({ min: 1, max: 45 }),
        fc.constantFrom('upright', 'lying'),
        fc.boolean(),
        async (width, height, rowsInBand, ribs, big) => {
          const pixels = scrambled(width, height, width * height);
          const plan = { info: info(width, height), rowsInBand, ribs } as const;
          const file = fileOf(
            tiffWriter,
            pixels,
            plan,
            big ? (sheet) => openTiff(sheet, 0) : undefined,
          );
          // TIFF 6.0, section 2: "II", 42. BigTIFF: 43, then 8-byte offsets.
          expect([...file.subarray(0, 4)]).toEqual([0x49, 0x49, big ? 43 : 42, 0]);
          if (big) expect([...file.subarray(4, 8)]).toEqual([8, 0, 0, 0]);
          await expectDots(file, pixels, width, height);
        },
      ),
      { numRuns: 40 },
    );
  });

  test('wide sheets, in tiles: two readers read the same dots', async () => {
    await fc.assert(
      fc.asyncProperty(
        // 10,923 dots are the first whose row is longer than deflate's window of 32,768 bytes (RFC 1951).
        fc.oneof(fc.constantFrom(10_923, 32_769), fc.integer({ min: 10_923, max: 12_500 })),
        fc.integer({ min: 1, max: 140 }),
        fc.integer({ min: 1, max: 2 }),
        fc.boolean(),
        async (width, height, steps, big) => {
          const pixels = scrambled(width, height, height);
          const rowsInBand = steps * tiffWriter.bandStep(width);
          const plan = { info: info(width, height), rowsInBand };
          const open = big ? (sheet: SheetFile) => openTiff(sheet, 0) : undefined;
          const file = fileOf(tiffWriter, pixels, plan, open);
          await expectDots(file, pixels, width, height);
        },
      ),
      { numRuns: 5 },
    );
  });

  test('tiles have sides of whole sixteens and stand where strips would not do, and only there', async () => {
    const fieldsOf = async (width: number) => {
      const rowsInBand = tiffWriter.bandStep(width);
      const { field } = await openWithGeotiff(
        fileOf(tiffWriter, scrambled(width, 3), { info: info(width, 3), rowsInBand }),
      );
      return (names: readonly string[]) => names.map(field);
    };
    // TIFF 6.0, section 15: TileWidth and TileLength must be multiples of 16; no strip fields beside them.
    const wide = (await fieldsOf(10_923))(['TileWidth', 'TileLength']) as number[];
    expect(wide.map((side) => side % 16)).toEqual([0, 0]);
    expect((await fieldsOf(10_923))(['RowsPerStrip', 'StripOffsets'])).toEqual([
      undefined,
      undefined,
    ]);
    expect((await fieldsOf(10_922))(['TileWidth', 'TileLength'])).toEqual([undefined, undefined]);
  });

  test('a row like the one above it costs little, however wide the sheet', () => {
    const [width, height] = [20_000, 64];
    const row = scrambled(width, 1);
    const pixels = new Uint8Array(row.length * height);
    for (let y = 0; y < height; y += 1) pixels.set(row, y * row.length);
    const plan = { info: info(width, height), rowsInBand: 64 };
    // The rows below the first may add a tenth each at most: as strips each was as large as the first.
    expect(fileOf(tiffWriter, pixels, plan).length).toBeLessThan(row.length * (1 + 63 / 10));
  });

  test('says how it is packed, its density and its colour', async () => {
    const more = { title: 'Sea thrift', description: 'Woven at 59.92 LPI', software: 'Tiltloom' };
    const file = fileOf(tiffWriter, scrambled(30, 20), {
      info: info(30, 20, more),
      rowsInBand: 7,
    });
    const { field } = await openWithGeotiff(file);
    // TIFF 6.0 sections 8 and 14; 8 is zlib (TIFF Technical Note / Supplement 2).
    expect(field('Compression')).toBe(8);
    expect(field('Predictor')).toBe(2);
    expect(field('PlanarConfiguration')).toBe(1);
    expect(field('PhotometricInterpretation')).toBe(2);
    expect([...(field('BitsPerSample') as ArrayLike<number> & Iterable<number>)]).toEqual([
      8, 8, 8,
    ]);
    expect(field('RowsPerStrip')).toBe(7);
    expect(Array.from(field('StripOffsets') as ArrayLike<number>)).toHaveLength(3);
    // Tags 282, 283, 296; 2 is the inch (section 8).
    expect([...(field('XResolution') as Iterable<number>)]).toEqual([720, 1]);
    expect([...(field('YResolution') as Iterable<number>)]).toEqual([360, 1]);
    expect(field('ResolutionUnit')).toBe(2);
    expect(field('ImageDescription')).toMatch(/^Woven at 59\.92 LPI\0?$/);
    expect(field('Software')).toMatch(/^Tiltloom\0?$/);
    const facts = await sharp(file).metadata();
    expect(facts).toMatchObject({ format: 'tiff', density: 720, space: 'srgb' });
    expect(facts.icc?.equals(Buffer.from(srgbProfile()))).toBe(true);
  });

  test.each([
    [720, 720],
    [719.97, 719.97],
    [1 / 3 + 600, 600.3333333],
    [5000.5, 5000.5],
  ])('%d dpi are kept to a ten-millionth', async (dpi, kept) => {
    const file = fileOf(tiffWriter, scrambled(2, 2), {
      info: info(2, 2, { horizontalDpi: dpi }),
      rowsInBand: 2,
    });
    const [over, under] = (await openWithGeotiff(file)).field('XResolution') as number[];
    expect((over ?? 0) / (under ?? 0) / kept - 1).toBeCloseTo(0, 9);
  });

  test('words in any language: seven bits where TIFF allows no more, all of them in XMP', async () => {
    const title = 'Märchen & <Eisvögel> 翡翠 🐟';
    const file = fileOf(tiffWriter, scrambled(2, 2), {
      info: info(2, 2, { title, description: 'x\u0000y' }),
      rowsInBand: 1,
    });
    const { field } = await openWithGeotiff(file);
    expect(field('DocumentName')).toMatch(/^Marchen & <Eisvogel> \?\? \?\0?$/);
    const xmp = (await sharp(file).metadata()).xmpAsString ?? '';
    const document = new (await import('jsdom')).JSDOM(xmp, { contentType: 'text/xml' }).window
      .document;
    expect(document.getElementsByTagName('dc:title')[0]?.textContent).toBe(title);
    expect(document.getElementsByTagName('dc:description')[0]?.textContent).toBe('x y');
  });

  test('becomes a BigTIFF when its end passes 4 GiB, and not before', () => {
    const ofBytes = (byteLength: number) => {
      const file = openTiff({ info: info(1000, 2), rowsInBand: 1 });
      expect(file.head()).toHaveLength(16);
      file.took({ byteLength, adler32: 1, rawLength: 3000 });
      file.took({ byteLength: 1000, adler32: 1, rawLength: 3000 });
      const { bytes, patch } = file.tail();
      const end = 16 + byteLength + 1000 + bytes.length;
      const header = Buffer.from(patch?.bytes ?? []);
      return { end, header, at: patch?.at };
    };
    const small = ofBytes(4_294_960_000);
    expect(small.end).toBeLessThan(2 ** 32);
    expect(small.header.readUInt16LE(2)).toBe(42);
    // The directory begins behind the strips, at a multiple of eight.
    expect(small.header.readUInt32LE(4)).toBe(Math.ceil((16 + 4_294_961_000) / 8) * 8);
    const large = ofBytes(6_000_000_001);
    expect(large.at).toBe(0);
    expect(large.header.readUInt16LE(2)).toBe(43);
    expect(large.header.readUInt16LE(4)).toBe(8);
    expect(Number(large.header.readBigUInt64LE(8))).toBe(Math.ceil((16 + 6_000_001_001) / 8) * 8);
    // One that would fit but for its directory.
    expect(ofBytes(2 ** 32 - 1 - 16 - 1000 - 8).header.readUInt16LE(2)).toBe(43);
  });

  test('refuses what it cannot hold by the name of the field', () => {
    const open = (more: Partial<SheetInfo>) => () =>
      tiffWriter.open({ info: info(10, 10, more), rowsInBand: 1 });
    expect(open({ width: 0 })).toThrow(/width/);
    expect(open({ height: 2 ** 32 })).toThrow(/height/);
    expect(open({ verticalDpi: NaN })).toThrow(/verticalDpi/);
  });
});
