/**
 * The decoder in a real browser's worker: what the browser itself decodes, and that the lazy parts load
 * when built. Files by sharp; colours by CSS Color 4; orientation by sharp's own reading.
 */
import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Page } from 'playwright/test';
import { expect, test } from './support/any-visit.ts';
import type { Sharp } from 'sharp';
import sharp from 'sharp';
import type { PreviewServer } from 'vite';
import { build, preview } from 'vite';
import { HEIGHT, WIDTH, light, picture16, picture8 } from '../contract/decode-fixtures/picture.ts';
import * as make from '../contract/decode-helpers.ts';
import type { Answer } from './decode-harness/decode.worker.ts';

const root = fileURLToPath(new URL('./decode-harness/', import.meta.url));
let outDir: string;
let server: PreviewServer;
let page: Page;

test.beforeAll(async ({ browser }) => {
  outDir = await mkdtemp(join(tmpdir(), 'decode-harness-'));
  const shared = { root, configFile: false, base: './', logLevel: 'error' } as const;
  await build({
    ...shared,
    // As the studio is built: see vite.config.ts.
    worker: { format: 'es' },
    build: { outDir, emptyOutDir: true, target: 'es2022', assetsInlineLimit: 0 },
  });
  server = await preview({ ...shared, build: { outDir }, preview: { port: 4711 } });
  page = await browser.newPage();
  await page.goto(server.resolvedUrls?.local[0] ?? 'http://localhost:4711/');
});

test.afterAll(async () => {
  await page.close();
  await server.close();
  await rm(outDir, { recursive: true });
});

type Point = readonly [x: number, y: number];

const ask = (bytes: Buffer, name: string, at: readonly Point[] = [[0, 0]]): Promise<Answer> =>
  page.evaluate(([base64, file, points]) => window.decode(base64, file, points), [
    bytes.toString('base64'),
    name,
    at,
  ] as const);

/** The picture or, where there is an error, a failed test with its message. */
const decode = async (bytes: Buffer, name: string, at?: readonly Point[]) => {
  const answer = await ask(bytes, name, at);
  if ('error' in answer) throw new Error(`${answer.error.code}: ${answer.error.message}`);
  return answer;
};

const expectNear = (got: readonly number[], wanted: readonly number[], tolerance: number) => {
  expect(got.length).toBe(wanted.length);
  got.forEach((value, i) => {
    expect(
      Math.abs(value - wanted[i]!),
      `${got.join()} is not ${wanted.join()}`,
    ).toBeLessThanOrEqual(tolerance);
  });
};

const solid = (...codes: number[]) => {
  const channels = codes.length as 3 | 4;
  const pixels = Uint8Array.from({ length: 16 * 16 * channels }, (_, i) => codes[i % channels]!);
  return make.raw(pixels, 16, 16, channels);
};

const COLOUR = [200, 100, 50] as const;
const codes = COLOUR.map((v) => v / 255) as unknown as readonly [number, number, number];
const to255 = (values: readonly number[]) => values.map((v) => v * 255);

const lossless = {
  png: (image: Sharp) => image.png(),
  jpeg: (image: Sharp) => image.jpeg({ quality: 100, chromaSubsampling: '4:4:4' }),
  webp: (image: Sharp) => image.webp({ lossless: true, exact: true }),
  avif: (image: Sharp) => image.avif({ quality: 100, chromaSubsampling: '4:4:4' }),
};
type BrowserFormat = keyof typeof lossless;
const browserFormats = Object.keys(lossless) as BrowserFormat[];
const labels = { png: 'PNG, 8 bit', jpeg: 'JPEG', webp: 'WebP', avif: 'AVIF' };

for (const format of browserFormats) {
  test(`${format}: pixels and size`, async () => {
    const file = await lossless[format](make.raw(picture8(), WIDTH, HEIGHT, 3)).toBuffer();
    const at: Point[] = [
      [0, 0],
      [36, 28],
      [17, 11],
    ];
    const { image, pixels } = await decode(file, 'frame', at);
    expect(image).toEqual({
      widthPx: WIDTH,
      heightPx: HEIGHT,
      channels: 4,
      encoding: 'srgb8',
      kind: labels[format],
    });
    const theirs = await sharp(file).raw().toBuffer();
    const wanted = at.flatMap(([x, y]) => {
      const first = (y * WIDTH + x) * 3;
      return [...theirs.subarray(first, first + 3), 255];
    });
    // Two decoders of a lossy format may round a transform differently; PNG and lossless WebP may not.
    expectNear(pixels, wanted, format === 'jpeg' || format === 'avif' ? 2 : 0);
  });

  test(`${format}: an embedded Adobe RGB (1998) or Display P3 profile is converted to sRGB`, async () => {
    for (const [profile, convert] of [
      [make.ADOBE_RGB, make.adobeToSrgb],
      [make.DISPLAY_P3, make.p3ToSrgb],
    ] as const) {
      const chunk = make.iccpChunk(profile.name, make.matrixProfile(profile));
      const png = make.pngWith(
        await solid(...COLOUR)
          .png()
          .toBuffer(),
        [chunk],
      );
      const file =
        format === 'png' ? png : await lossless[format](sharp(png).keepIccProfile()).toBuffer();
      const { image, pixels } = await decode(file, 'frame', [[8, 8]]);
      expect(image.profile).toBe(profile.name);
      // A step for 8 bits, another for the lossy formats' own rounding.
      expectNear(pixels, [...to255(convert(codes)), 255], format === 'avif' ? 2 : 1.5);
    }
  });

  for (let orientation = 1; orientation <= 8; orientation += 1) {
    test(`${format}: EXIF orientation ${orientation} is obeyed`, async () => {
      const corner = (x: number, y: number) =>
        x < 16 ? (y < 8 ? [255, 0, 0] : [0, 0, 255]) : y < 8 ? [0, 255, 0] : [255, 255, 255];
      const pixels = Uint8Array.from({ length: 32 * 16 * 3 }, (_, i) => {
        const pixel = Math.floor(i / 3);
        return corner(pixel % 32, Math.floor(pixel / 32))[i % 3]!;
      });
      const tagged = make.raw(pixels, 32, 16, 3).withMetadata({ orientation });
      const file = await lossless[format](tagged).toBuffer();
      const seen = await sharp(file).autoOrient().raw().toBuffer({ resolveWithObject: true });
      const { width, height } = seen.info;
      const at: Point[] = [
        [1, 1],
        [width - 2, 1],
        [1, height - 2],
        [width - 2, height - 2],
      ];
      const answer = await decode(file, 'frame', at);
      expect([answer.image.widthPx, answer.image.heightPx]).toEqual([width, height]);
      const wanted = at.flatMap(([x, y]) => {
        const first = (y * width + x) * 3;
        return [...seen.data.subarray(first, first + 3), 255];
      });
      expectNear(answer.pixels, wanted, 3);
    });
  }
}

for (const format of ['png', 'webp'] as const) {
  test(`${format}: alpha goes over white in linear light`, async () => {
    for (const alpha of [255, 200, 128, 10, 0]) {
      const file = await lossless[format](solid(...COLOUR, alpha)).toBuffer();
      const { pixels } = await decode(file, 'frame', [[8, 8]]);
      const wanted = to255(codes.map((code) => make.overWhite(code, alpha / 255)));
      // The canvas keeps colours multiplied by alpha at 8 bits: half a step, and half for the result.
      expectNear(pixels, [...wanted, 255], 1.5);
    }
  });
}

test('avif: clear parts become white paper, opaque ones stay', async () => {
  // Chromium 156 reads the alpha of every AVIF as studio range, in pages too: 200 as 214. Only the ends of
  // the scale are the same in both, so only they can be promised.
  for (const alpha of [255, 0]) {
    const { pixels } = await decode(
      await lossless.avif(solid(...COLOUR, alpha)).toBuffer(),
      'frame',
    );
    expectNear(pixels, alpha === 0 ? [255, 255, 255, 255] : [...COLOUR, 255], 2);
  }
});

test('an 8-bit PNG with cICP, gAMA or cHRM is converted by the browser', async () => {
  const base = await solid(...COLOUR)
    .png()
    .toBuffer();
  const chrm = make.longs(31270, 32900, 64000, 33000, 21000, 71000, 15000, 6000);
  const cases: [chunks: [string, Buffer][], wanted: readonly number[]][] = [
    [[['cICP', Buffer.from([12, 13, 0, 1])]], make.p3ToSrgb(codes)],
    [[['cICP', Buffer.from([1, 13, 0, 1])]], codes],
    [[['gAMA', make.longs(100000)]], codes.map(make.srgbEncode)],
    [[['gAMA', make.longs(45455)]], codes],
    // 1/0.45471 is the 563/256 of Adobe RGB (1998), and the primaries are its own.
    [
      [
        ['gAMA', make.longs(45471)],
        ['cHRM', chrm],
      ],
      make.adobeToSrgb(codes),
    ],
    [
      [
        ['sRGB', Buffer.from([0])],
        ['gAMA', make.longs(100000)],
      ],
      codes,
    ],
  ];
  for (const [chunks, wanted] of cases) {
    const { pixels } = await decode(make.pngWith(base, chunks), 'frame', [[8, 8]]);
    expectNear(pixels, [...to255(wanted), 255], 1.5);
  }
});

test('grey, palette and interlaced PNG', async () => {
  const grey = Uint8Array.from({ length: 256 }, (_, i) => i);
  const first = await decode(
    await make.raw(grey, 16, 16, 1).toColourspace('b-w').png().toBuffer(),
    'grey',
    [[5, 3]],
  );
  expect(first.image.kind).toBe('PNG, 8 bit grey');
  expect(first.pixels).toEqual([53, 53, 53, 255]);
  const palette = await decode(
    await solid(...COLOUR)
      .png({ palette: true })
      .toBuffer(),
    'palette',
  );
  expect(palette.image.kind).toMatch(/palette$/);
  expect(palette.pixels).toEqual([...COLOUR, 255]);
  const laced = make.raw(picture8(), WIDTH, HEIGHT, 3).png({ progressive: true });
  const { pixels } = await decode(await laced.toBuffer(), 'laced', [[36, 28]]);
  expect(pixels).toEqual([...picture8().subarray(-3), 255]);
});

test('overwritten pixels of a PNG are damaged, not half a picture', async () => {
  const png = await make.raw(picture8(), WIDTH, HEIGHT, 3).png().toBuffer();
  png.fill(0x55, png.length >> 1, (png.length >> 1) + 40);
  expect(await ask(png, 'frame_03.png')).toMatchObject({
    error: { code: 'damaged', file: 'frame_03.png' },
  });
});

test.describe('lazy parts load in a built worker', () => {
  test('16-bit PNG', async () => {
    const png = await make.raw16(picture16(), WIDTH, HEIGHT, 3).png().toBuffer();
    const { image, pixels } = await decode(png, 'frame', [[36, 28]]);
    expect(image.kind).toBe('PNG, 16 bit');
    expect(pixels).toEqual([...picture16().subarray(-3)]);
  });

  test('the colour engine and its WebAssembly', async () => {
    const chunk = make.iccpChunk('camera', make.matrixProfile(make.ADOBE_RGB));
    const pixels = Uint16Array.from({ length: 12 }, (_, i) => COLOUR[i % 3]! * 257);
    const png = make.pngWith(await make.raw16(pixels, 2, 2, 3).png().toBuffer(), [chunk]);
    const answer = await decode(png, 'frame');
    expect(answer.image.profile).toBe('Adobe RGB (1998)');
    // As in the contract test: an eighth of an 8-bit step.
    expectNear(
      answer.pixels,
      make.adobeToSrgb(codes).map((v) => v * 65535),
      32,
    );
  });

  test('TIFF', async () => {
    for (const compression of ['lzw', 'deflate', 'packbits', 'jpeg'] as const) {
      const tiff = make.raw(picture8(), WIDTH, HEIGHT, 3).tiff({ compression, quality: 100 });
      const { pixels } = await decode(await tiff.toBuffer(), 'frame', [[36, 28]]);
      // JPEG at quality 100 rounds its transform.
      expectNear(pixels, [...picture8().subarray(-3)], compression === 'jpeg' ? 4 : 0);
    }
  });

  test('OpenEXR', async () => {
    const fixture = new URL('../contract/decode-fixtures/half-piz.exr', import.meta.url);
    const { image, pixels } = await decode(await readFile(fixture), 'frame', [[36, 28]]);
    expect(image.encoding).toBe('linear');
    expect(pixels).toEqual([0, 1, 2].map((c) => light(36, 28, c)));
  });
});
