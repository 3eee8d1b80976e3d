/** 16-bit PNG, which a library decodes: files by sharp, colours by CSS Color 4 and by sharp's own engine. */
import { createRequire } from 'node:module';
import sharp from 'sharp';
import { describe, expect, test, vi } from 'vitest';
import type { DecodedImage } from '../../workers/decode/index.ts';
import { decodeImage } from '../../workers/decode/index.ts';
import * as make from './decode-helpers.ts';
import { HEIGHT, WIDTH, picture16 } from './decode-fixtures/picture.ts';

vi.mock('lcms-wasm/dist/lcms.wasm?url', () => ({
  default: createRequire(import.meta.url).resolve('lcms-wasm/dist/lcms.wasm'),
}));

const decode = (png: Buffer): Promise<DecodedImage> =>
  decodeImage(new Blob([new Uint8Array(png)]), 'frame_01.png');

/** One colour, 8 × 8, 16 bit. Codes 0 … 1. */
const solid = (...codes: number[]): Promise<Buffer> => {
  const pixel = codes.map((code) => Math.round(code * 65535));
  const channels = codes.length as 1 | 2 | 3 | 4;
  const pixels = Uint16Array.from({ length: 64 * channels }, (_, i) => pixel[i % channels]!);
  return make.raw16(pixels, 8, 8, channels).png().toBuffer();
};

const firstPixel = ({ data }: DecodedImage): number[] => [...data.subarray(0, 3)];

/** Every channel of the first pixel within `tolerance` of codes given as 0 … 1. */
const expectColour = (image: DecodedImage, codes: readonly number[], tolerance: number): void => {
  firstPixel(image).forEach((value, c) => {
    expect(Math.abs(value - codes[c]! * 65535), `channel ${c}: ${value}`).toBeLessThanOrEqual(
      tolerance,
    );
  });
};

describe('16-bit PNG', () => {
  test('every code comes through, plain and interlaced', async () => {
    const pixels = picture16();
    for (const progressive of [false, true]) {
      const image = await decode(
        await make.raw16(pixels, WIDTH, HEIGHT, 3).png({ progressive }).toBuffer(),
      );
      expect(image).toMatchObject({
        widthPx: WIDTH,
        heightPx: HEIGHT,
        channels: 3,
        encoding: 'srgb16',
        kind: 'PNG, 16 bit',
      });
      expect(image.data).toEqual(pixels);
    }
  });

  test('grey becomes three equal channels', async () => {
    const image = await decode(await solid(0.25));
    expect(firstPixel(image)).toEqual([16384, 16384, 16384]);
    expect(image.kind).toBe('PNG, 16 bit grey');
  });

  test('alpha goes over white in linear light (sRGB by IEC 61966-2-1)', async () => {
    const image = await decode(await solid(0.2, 0.5, 0.9, 0.4));
    // One code for rounding to 16 bit twice.
    expectColour(
      image,
      [0.2, 0.5, 0.9].map((code) => make.overWhite(code, 0.4)),
      1,
    );
  });

  test('grey with alpha goes over white too', async () => {
    expectColour(
      await decode(await solid(0.3, 0.5)),
      new Array(3).fill(make.overWhite(0.3, 0.5)),
      1,
    );
  });

  test('the one transparent colour of tRNS becomes white, others stay', async () => {
    const pixels = Uint16Array.from({ length: 64 * 3 }, (_, i) => (i < 3 ? 1234 : 4321));
    const key = Buffer.from([4, 210, 4, 210, 4, 210]);
    const png = await make.raw16(pixels, 8, 8, 3).png().toBuffer();
    const { data } = await decode(make.pngWith(png, [['tRNS', key]]));
    expect([...data.subarray(0, 6)]).toEqual([65535, 65535, 65535, 4321, 4321, 4321]);
  });

  test('an animation gives its first picture and says so', async () => {
    // acTL: two frames, played for ever; the first is the ordinary picture (PNG third edition, 11.3.6).
    const png = make.pngWith(await solid(0.5, 0.5, 0.5), [['acTL', make.longs(2, 0)]]);
    expect((await decode(png)).kind).toBe('PNG, 16 bit, first picture of an animation');
  });
});

describe('embedded colours', () => {
  const colours = [
    [0.8, 0.4, 0.2],
    [0.3, 0.6, 0.35],
    [0.5, 0.5, 0.5],
    [1, 0, 0],
    [0, 0, 0],
    [1, 1, 1],
  ] as const;

  test('Adobe RGB (1998) comes to sRGB as CSS Color 4 computes it', async () => {
    const chunk = make.iccpChunk('camera', make.matrixProfile(make.ADOBE_RGB));
    for (const codes of colours) {
      const png = make.pngWith(await solid(...codes), [chunk]);
      const image = await decode(png);
      // The profile keeps its colorants to 1/65536; 32 is an eighth of an 8-bit step.
      expectColour(image, make.adobeToSrgb(codes), 32);
      expect(image.profile).toBe('Adobe RGB (1998)');
    }
  });

  test('Display P3 comes to sRGB as CSS Color 4 computes it', async () => {
    const chunk = make.iccpChunk('display', make.matrixProfile(make.DISPLAY_P3));
    for (const codes of colours) {
      const image = await decode(make.pngWith(await solid(...codes), [chunk]));
      // Five decimals of colorants: a quarter of an 8-bit step.
      expectColour(image, make.p3ToSrgb(codes), 64);
      expect(image.profile).toBe('Display P3');
    }
  });

  test("agrees with sharp's own colour engine within one 8-bit step", async () => {
    const chunk = make.iccpChunk('camera', make.matrixProfile(make.ADOBE_RGB));
    for (const codes of colours) {
      const bytes = codes.map((code) => Math.round(code * 255));
      const pixels = Uint8Array.from({ length: 64 * 3 }, (_, i) => bytes[i % 3]!);
      // sharp converts profiles of 8-bit files only.
      const png8 = make.pngWith(await make.raw(pixels, 8, 8, 3).png().toBuffer(), [chunk]);
      const theirs = await sharp(png8).toColourspace('srgb').raw().toBuffer();
      const image = await decode(make.pngWith(await solid(...bytes.map((b) => b / 255)), [chunk]));
      expectColour(
        image,
        [0, 1, 2].map((c) => theirs[c]! / 255),
        257,
      );
    }
  });

  test('a grey profile changes the tone only', async () => {
    const chunk = make.iccpChunk('scan', make.greyProfile('Grey gamma 1.8', 1.8));
    const image = await decode(make.pngWith(await solid(0.5), [chunk]));
    expectColour(
      image,
      new Array(3).fill(make.srgbEncode(0.5 ** (Math.round(1.8 * 256) / 256))),
      32,
    );
    expect(image.profile).toBe('Grey gamma 1.8');
  });

  test('a profile that does not fit the pixels is refused by name', async () => {
    const chunk = make.iccpChunk('scan', make.greyProfile('Grey gamma 1.8', 1.8));
    await expect(decode(make.pngWith(await solid(0.5, 0.5, 0.5), [chunk]))).rejects.toMatchObject({
      code: 'unsupported-variant',
      file: 'frame_01.png',
    });
  });

  test('a broken profile is reported, not ignored', async () => {
    const broken = make.iccpChunk('scan', Buffer.alloc(200, 1));
    await expect(decode(make.pngWith(await solid(0.5, 0.5, 0.5), [broken]))).rejects.toMatchObject({
      code: 'damaged',
    });
  });

  test('cICP Display P3 goes before every other description (PNG third edition, 11.3.2)', async () => {
    const png = make.pngWith(await solid(0.8, 0.4, 0.2), [
      ['cICP', Buffer.from([12, 13, 0, 1])],
      ['gAMA', make.longs(100000)],
    ]);
    const image = await decode(png);
    // Primaries to four digits in both standards.
    expectColour(image, make.p3ToSrgb([0.8, 0.4, 0.2]), 16);
    expect(image.profile).toBe('Display P3');
  });

  test('cICP sRGB and gAMA 0.45455 change nothing; sRGB wins over gAMA', async () => {
    for (const chunks of [
      [['cICP', Buffer.from([1, 13, 0, 1])]],
      [['gAMA', make.longs(45455)]],
      [
        ['sRGB', Buffer.from([0])],
        ['gAMA', make.longs(100000)],
      ],
    ] as [string, Buffer][][]) {
      const image = await decode(make.pngWith(await solid(0.8, 0.4, 0.2), chunks));
      expect(firstPixel(image)).toEqual([52428, 26214, 13107]);
      expect(image.profile).toBeUndefined();
    }
  });

  test('gAMA 1 means linear light', async () => {
    const image = await decode(
      make.pngWith(await solid(0.8, 0.4, 0.2), [['gAMA', make.longs(100000)]]),
    );
    expectColour(image, [0.8, 0.4, 0.2].map(make.srgbEncode), 1);
  });

  test('cHRM with gAMA means those primaries and that power', async () => {
    // Adobe RGB (1998) primaries and white in 1/100000, and 1/2.2: all but its gamma of 563/256.
    const chrm = make.longs(31270, 32900, 64000, 33000, 21000, 71000, 15000, 6000);
    const png = make.pngWith(await solid(0.8, 0.4, 0.2), [
      ['gAMA', make.longs(45471)],
      ['cHRM', chrm],
    ]);
    // 1/0.45471 is 563/256 to five digits.
    expectColour(await decode(png), make.adobeToSrgb([0.8, 0.4, 0.2]), 16);
  });

  test('HDR by cICP is refused with advice', async () => {
    const png = make.pngWith(await solid(0.5, 0.5, 0.5), [['cICP', Buffer.from([9, 16, 0, 1])]]);
    await expect(decode(png)).rejects.toMatchObject({
      code: 'unsupported-variant',
      message: expect.stringContaining('HDR') as string,
    });
  });
});
