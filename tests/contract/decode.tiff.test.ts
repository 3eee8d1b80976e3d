/** TIFF: files by sharp, libtiff's tools and ImageMagick (decode-fixtures/make-tiff.mjs), pixels by formula. */
import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import fc from 'fast-check';
import sharp from 'sharp';
import { describe, expect, test, vi } from 'vitest';
import type { DecodedImage } from '../../workers/decode/index.ts';
import { decodeImage } from '../../workers/decode/index.ts';
import * as make from './decode-helpers.ts';
import { HEIGHT, WIDTH, picture16, picture8 } from './decode-fixtures/picture.ts';

vi.mock('lcms-wasm/dist/lcms.wasm?url', () => ({
  default: createRequire(import.meta.url).resolve('lcms-wasm/dist/lcms.wasm'),
}));

const fixture = (name: string): Promise<Buffer> =>
  readFile(new URL(`./decode-fixtures/${name}.tif`, import.meta.url));
const decode = (tiff: Buffer): Promise<DecodedImage> =>
  decodeImage(new Blob([new Uint8Array(tiff)]), 'scan.tif');

const worst = (got: ArrayLike<number>, wanted: ArrayLike<number>): number => {
  expect(got.length).toBe(wanted.length);
  let most = 0;
  for (let i = 0; i < got.length; i += 1) most = Math.max(most, Math.abs(got[i]! - wanted[i]!));
  return most;
};

describe('as sharp writes it', () => {
  const ways = [
    { compression: 'none' },
    { compression: 'lzw', predictor: 'none' },
    { compression: 'lzw', predictor: 'horizontal' },
    { compression: 'deflate', predictor: 'none' },
    { compression: 'deflate', predictor: 'horizontal' },
    { compression: 'packbits' },
    { compression: 'deflate', tile: true, tileWidth: 16, tileHeight: 16 },
    { compression: 'none', tile: true, tileWidth: 16, tileHeight: 16 },
    { compression: 'none', bigtiff: true },
  ] as const;

  test.each(ways)('8 bit $compression $predictor, tile $tile', async (way) => {
    const image = await decode(await make.raw(picture8(), WIDTH, HEIGHT, 3).tiff(way).toBuffer());
    expect(image).toMatchObject({ encoding: 'srgb8', channels: 3, kind: 'TIFF, 8 bit' });
    expect(image.data).toEqual(picture8());
  });

  test.each(ways)('16 bit $compression $predictor, tile $tile', async (way) => {
    const image = await decode(
      await make.raw16(picture16(), WIDTH, HEIGHT, 3).tiff(way).toBuffer(),
    );
    expect(image).toMatchObject({ encoding: 'srgb16', channels: 3, kind: 'TIFF, 16 bit' });
    expect(image.data).toEqual(picture16());
  });

  test.each([1, 2, 3, 4, 5, 6, 7, 8])('orientation %i is obeyed', async (orientation) => {
    const tiff = await make
      .raw(picture8(), WIDTH, HEIGHT, 3)
      .withMetadata({ orientation })
      .tiff({ compression: 'none' })
      .toBuffer();
    const seen = await sharp(tiff).autoOrient().raw().toBuffer({ resolveWithObject: true });
    const image = await decode(tiff);
    expect([image.widthPx, image.heightPx]).toEqual([seen.info.width, seen.info.height]);
    expect(Buffer.from(image.data)).toEqual(seen.data);
  });

  test('whatever libtiff packs with LZW comes back', async () => {
    const strip = fc.record({
      width: fc.integer({ min: 1, max: 90 }),
      height: fc.integer({ min: 1, max: 90 }),
      // Few different bytes give long table entries, many fill the table until it is cleared.
      colours: fc.integer({ min: 1, max: 256 }),
      seed: fc.integer({ min: 1, max: 2 ** 31 - 1 }),
    });
    await fc.assert(
      fc.asyncProperty(strip, async ({ width, height, colours, seed }) => {
        let state = seed;
        const pixels = Uint8Array.from({ length: width * height * 3 }, () => {
          state = (Math.imul(state, 1103515245) + 12345) >>> 0;
          return (state >>> 16) % colours;
        });
        const tiff = await make
          .raw(pixels, width, height, 3)
          .tiff({ compression: 'lzw', predictor: 'none' })
          .toBuffer();
        expect((await decode(tiff)).data).toEqual(pixels);
      }),
      { numRuns: 40 },
    );
  });

  test('of a pyramid the full picture is read, and its smaller copies are not called pages', async () => {
    const pixels = new Uint8Array(300 * 200 * 3).map((_, i) => i % 251);
    const tiff = await make
      .raw(pixels, 300, 200, 3)
      .tiff({ compression: 'deflate', pyramid: true, tile: true, tileWidth: 64, tileHeight: 64 })
      .toBuffer();
    const image = await decode(tiff);
    expect(image).toMatchObject({ widthPx: 300, heightPx: 200, kind: 'TIFF, 8 bit' });
    expect(image.data).toEqual(pixels);
  });

  test('of several pages the first is read, and the kind says so', async () => {
    const pages = [picture8(), picture8().reverse(), picture8()];
    const tall = Buffer.concat(pages);
    const tiff = await sharp(tall, {
      raw: { width: WIDTH, height: HEIGHT * 3, channels: 3, pageHeight: HEIGHT },
    })
      .tiff({ compression: 'none' })
      .toBuffer();
    const image = await decode(tiff);
    expect(image.kind).toBe('TIFF, 8 bit, first of 3 pages');
    expect(image.data).toEqual(picture8());
  });

  test('an embedded profile is converted, at 16 bit, from 8-bit pixels', async () => {
    const [r, g, b] = [200, 100, 50];
    const pixels = Uint8Array.from({ length: 64 * 3 }, (_, i) => [r, g, b][i % 3]!);
    const png = make.pngWith(await make.raw(pixels, 8, 8, 3).png().toBuffer(), [
      make.iccpChunk('camera', make.matrixProfile(make.ADOBE_RGB)),
    ]);
    const tiff = await sharp(png).keepIccProfile().tiff({ compression: 'lzw' }).toBuffer();
    const image = await decode(tiff);
    expect(image.profile).toBe('Adobe RGB (1998)');
    const wanted = make.adobeToSrgb([r / 255, g / 255, b / 255]).map((code) => code * 65535);
    // As for PNG: an eighth of an 8-bit step for the profile's rounded colorants.
    expect(worst([...image.data.subarray(0, 3)], wanted)).toBeLessThanOrEqual(32);
  });
});

describe("as libtiff's tools and ImageMagick write it", () => {
  test.each([
    '16-msb-lzw-predictor',
    '16-msb-deflate-predictor',
    '16-msb-packbits',
    '16-planes-msb',
    '16-planes-lsb',
    '16-zstandard',
  ])('%s', async (name) => {
    const image = await decode(await fixture(name));
    expect(image.encoding).toBe('srgb16');
    expect(image.data).toEqual(picture16());
  });

  test.each(['8-msb-tiles', '8-planes-tiles', '8-strips-of-5', '8-bigtiff'])('%s', async (name) => {
    const image = await decode(await fixture(name));
    expect(image.encoding).toBe('srgb8');
    expect(image.data).toEqual(picture8());
  });

  test.each(['float-msb', 'float-lsb', 'float-msb-predictor', 'float-lsb-predictor'])(
    '%s is taken as linear light',
    async (name) => {
      const image = await decode(await fixture(name));
      expect(image.encoding).toBe('linear');
      expect(image.kind).toBe('TIFF, 32 bit float, taken as linear light');
      // ImageMagick scales 8-bit codes to 0 … 1 in 16-bit steps and stores floats.
      expect(
        worst(
          image.data,
          Float32Array.from(picture8(), (v) => v / 255),
        ),
      ).toBeLessThan(1e-6);
    },
  );

  test.each(['palette-4', 'grey-white-is-zero', 'bilevel'])(
    '%s reads as libvips reads it',
    async (name) => {
      const tiff = await fixture(name);
      const theirs = await sharp(tiff).toColourspace('srgb').removeAlpha().raw().toBuffer();
      const image = await decode(tiff);
      expect(image.encoding).toBe('srgb16');
      // libvips keeps the upper byte of the 16-bit palette.
      expect(
        worst(
          image.data,
          Array.from(theirs, (v) => v * 257),
        ),
      ).toBeLessThanOrEqual(257);
    },
  );

  test.each(['16-alpha-unassociated', '16-alpha-associated'])(
    '%s goes over white in linear light',
    async (name) => {
      const wanted = Array.from(picture16(), (v) => make.overWhite(v / 65535, 0.4) * 65535);
      const image = await decode(await fixture(name));
      // Alpha of 0.4 is 26214 of 65535; associated samples were rounded after multiplying by it, which
      // dividing makes ±1.25 codes, and the steepest part of the sRGB curve over white less than 1.
      expect(worst(image.data, wanted)).toBeLessThanOrEqual(2);
    },
  );

  test('JPEG inside TIFF in YCbCr reads as libtiff reads it', async () => {
    const tiff = await fixture('smooth-jpeg-ycbcr');
    const theirs = await sharp(tiff).raw().toBuffer();
    const image = await decode(tiff);
    expect(image.encoding).toBe('srgb8');
    // Colour is stored at half resolution; libjpeg smooths it, this library repeats it.
    expect(worst(image.data, theirs)).toBeLessThanOrEqual(8);
  });

  test.each([
    ['8-fill-order-2', 'reverse'],
    ['fax', 'compression number 4'],
    ['cmyk', 'CMYK'],
  ])('%s is refused with what to do', async (name, why) => {
    await expect(decode(await fixture(name))).rejects.toMatchObject({
      code: 'unsupported-variant',
      file: 'scan.tif',
      message: expect.stringMatching(new RegExp(`"scan\\.tif".*${why}.*Save it`)) as string,
    });
  });
});

test.each(['none', 'lzw', 'deflate', 'packbits'] as const)(
  'a TIFF cut off is damaged, never half a picture (%s)',
  async (compression) => {
    const whole = await make.raw16(picture16(), WIDTH, HEIGHT, 3).tiff({ compression }).toBuffer();
    for (const part of [0.02, 0.3, 0.7, 0.99]) {
      const cut = whole.subarray(0, Math.floor(whole.length * part));
      await expect(decode(cut), `${part}`).rejects.toMatchObject({ code: 'damaged' });
    }
  },
);

test('a TIFF whose deflated strip is overwritten is damaged', async () => {
  const whole = await make
    .raw(picture8(), WIDTH, HEIGHT, 3)
    .tiff({ compression: 'deflate' })
    .toBuffer();
  // sharp puts the strip right behind the 8 bytes of the file header.
  whole.fill(0xa5, 20, 60);
  await expect(decode(whole)).rejects.toMatchObject({ code: 'damaged', file: 'scan.tif' });
});
