/** OpenEXR: files by the reference library (decode-fixtures/make-exr.cpp), light by formula. */
import { readFile } from 'node:fs/promises';
import { describe, expect, test } from 'vitest';
import type { DecodedImage } from '../../workers/decode/index.ts';
import { decodeImage } from '../../workers/decode/index.ts';
import * as make from './decode-helpers.ts';
import { HEIGHT, WIDTH, light, pictureLight } from './decode-fixtures/picture.ts';

const bytes = async (name: string): Promise<Buffer> =>
  readFile(new URL(`./decode-fixtures/${name}`, import.meta.url));
const decodeBytes = (exr: Buffer): Promise<DecodedImage> =>
  decodeImage(new Blob([new Uint8Array(exr)]), 'render.exr');
const decode = async (name: string): Promise<DecodedImage> =>
  decodeBytes(await bytes(`${name}.exr`));

const worst = (got: ArrayLike<number>, wanted: ArrayLike<number>): number => {
  expect(got.length).toBe(wanted.length);
  let most = 0;
  for (let i = 0; i < got.length; i += 1) most = Math.max(most, Math.abs(got[i]! - wanted[i]!));
  return most;
};

describe('every compression', () => {
  test.each(['none', 'rle', 'zips', 'zip', 'piz', 'pxr24'])('half, %s: exact', async (name) => {
    const image = await decode(`half-${name}`);
    expect(image).toMatchObject({
      widthPx: WIDTH,
      heightPx: HEIGHT,
      channels: 3,
      encoding: 'linear',
      kind: 'OpenEXR, half float',
    });
    expect(image.data).toEqual(pictureLight());
  });

  test.each(['none', 'zip', 'piz'])('float, %s: exact', async (name) => {
    const image = await decode(`float-${name}`);
    expect(image.kind).toBe('OpenEXR, float');
    expect(image.data).toEqual(pictureLight());
  });

  test.each([
    ['b44', 0],
    ['b44a', 0],
    // The inverse cosine transform is computed in another order: one half-float step at 2 … 4.
    ['dwaa', 2 ** -9 * 1.5],
    ['dwab', 2 ** -9 * 1.5],
  ])('half, %s: as the reference library reads it', async (name, tolerance) => {
    const raw = await bytes(`half-${name}.raw`);
    const theirs = new Float32Array(new Uint8Array(raw).buffer);
    expect(worst((await decode(`half-${name}`)).data, theirs)).toBeLessThanOrEqual(tolerance);
    // The reference reading is itself near what was written, so this compares pictures, not noise.
    expect(worst(theirs, pictureLight())).toBeLessThan(0.2);
  });
});

describe('every layout', () => {
  test.each(['tiles', 'bottom-up'])('%s', async (name) => {
    expect((await decode(name)).data).toEqual(pictureLight());
  });

  test('of two parts the first is read, and the kind says so', async () => {
    const image = await decode('two-parts');
    expect(image.kind).toBe('OpenEXR, half float, first of 2 parts');
    expect(image.data).toEqual(pictureLight());
  });

  test('depth and normals beside the colours are left out', async () => {
    const wanted = Float32Array.from(pictureLight(), (v) => v + 0.5);
    expect((await decode('with-depth')).data).toEqual(wanted);
  });

  test('premultiplied alpha of one half leaves half the light of the paper', async () => {
    const wanted = Float32Array.from(pictureLight(), (v) => v + 0.5);
    expect((await decode('alpha')).data).toEqual(wanted);
  });

  test('luminance alone becomes grey', async () => {
    const { data } = await decode('grey');
    const wanted = Float32Array.from(pictureLight(), (_, i) => {
      const pixel = Math.floor(i / 3);
      return light(pixel % WIDTH, Math.floor(pixel / WIDTH), 3);
    });
    expect(data).toEqual(wanted);
  });

  const at = ({ data, widthPx }: DecodedImage, x: number, y: number) => [
    ...data.subarray((y * widthPx + x) * 3, (y * widthPx + x) * 3 + 3),
  ];
  const lightAt = (x: number, y: number) => [0, 1, 2].map((c) => light(x, y, c));

  test('a data window inside the display window stays in its place, black around it', async () => {
    const image = await decode('crop');
    expect([image.widthPx, image.heightPx]).toEqual([48, 36]);
    expect(at(image, 3, 2)).toEqual(lightAt(0, 0));
    expect(at(image, 3 + 36, 2 + 28)).toEqual(lightAt(36, 28));
    for (const [x, y] of [
      [2, 2],
      [3, 1],
      [40, 30],
      [39, 31],
    ] as const) {
      expect(at(image, x, y)).toEqual([0, 0, 0]);
    }
  });

  test('with alpha, what lies outside the data window is white paper', async () => {
    const image = await decode('crop-alpha');
    expect(at(image, 2, 2)).toEqual([1, 1, 1]);
    expect(at(image, 3, 2)).toEqual(lightAt(0, 0).map((v) => v + 0.5));
  });

  test('a data window larger than the display window is cropped to it', async () => {
    const image = await decode('overscan');
    expect([image.widthPx, image.heightPx]).toEqual([20, 20]);
    expect(at(image, 0, 0)).toEqual(lightAt(4, 3));
    expect(at(image, 19, 19)).toEqual(lightAt(23, 22));
  });

  test('Rec. 2020 primaries come to Rec. 709 as CSS Color 4 computes it, not clipped', async () => {
    const image = await decode('rec2020');
    const wanted = [];
    for (let i = 0; i < WIDTH * HEIGHT; i += 1) {
      const [r, g, b] = pictureLight().subarray(i * 3, i * 3 + 3);
      wanted.push(...make.rec2020ToRec709([r!, g!, b!]));
    }
    // Chromaticities are stored in float; light reaches 3.
    expect(worst(image.data, wanted)).toBeLessThan(1e-5);
    expect(Math.min(...image.data)).toBeLessThan(0);
    expect(image.profile).toBe('the primaries in the file');
  });

  test('colours hidden in named layers are refused with their names', async () => {
    await expect(decode('layers')).rejects.toMatchObject({
      code: 'unsupported-variant',
      file: 'render.exr',
      message: expect.stringContaining('beauty.R') as string,
    });
  });
});

describe('what is not whole', () => {
  test.each(['none', 'zip', 'piz', 'dwaa'])('cut off, %s', async (name) => {
    const whole = await bytes(`half-${name}.exr`);
    for (const part of [0.01, 0.1, 0.5, 0.98]) {
      const cut = whole.subarray(0, Math.floor(whole.length * part));
      await expect(decodeBytes(cut), `${part}`).rejects.toMatchObject({ code: 'damaged' });
    }
  });

  test('a render stopped half-way leaves gaps in the table of rows', async () => {
    const whole = await bytes('half-zips.exr');
    // The table of 29 offsets stands right before the first chunk, whose offset is its first entry.
    const first = tableStart(whole);
    whole.fill(0, first + 20 * 8, first + HEIGHT * 8);
    await expect(decodeBytes(whole)).rejects.toMatchObject({
      code: 'damaged',
      message: expect.stringContaining('not all of its rows') as string,
    });
  });

  test('an unknown compression is refused', async () => {
    const whole = await bytes('half-none.exr');
    const name = Buffer.from('compression\0compression\0');
    whole[whole.indexOf(name) + name.length + 4] = 12;
    await expect(decodeBytes(whole)).rejects.toMatchObject({
      code: 'unsupported-variant',
      message: expect.stringContaining('compression number 12') as string,
    });
  });
});

/** The table's first entry is the offset of the byte right behind the table. */
const tableStart = (exr: Buffer): number => {
  for (let at = 8; at < exr.length - 8; at += 1) {
    if (exr.readUInt32LE(at) === at + HEIGHT * 8 && exr.readUInt32LE(at + 4) === 0) return at;
  }
  throw new Error('no table of chunks found');
};
