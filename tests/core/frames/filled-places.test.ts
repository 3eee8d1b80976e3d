/** Where a made frame was filled, small enough to keep: against means worked out by hand, read by libvips. */
import fc from 'fast-check';
import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { greyPng } from '../../../src/core/encode/png-grey.ts';
import { keptPlaces, keptSize, thirdsOf } from '../../../src/core/frames/synth/filled-places.ts';

const holesOf = (columns: number, rows: number, share: (x: number, y: number) => number) => ({
  columns,
  rows,
  holes: Uint8Array.from({ length: columns * rows }, (_, i) =>
    share(i % columns, Math.floor(i / columns)),
  ),
});

/** What another reader finds in the file, as it stands. */
const readByOthers = async (png: Uint8Array) => {
  const { space, channels, depth, hasProfile } = await sharp(png).metadata();
  const { data, info } = await sharp(png)
    .toColourspace('b-w')
    .raw()
    .toBuffer({ resolveWithObject: true });
  expect(info.channels).toBe(1);
  return { space, channels, depth, hasProfile, width: info.width, height: info.height, data };
};

describe('the grey PNG', () => {
  it('is read by libvips as the very numbers, one channel of 8 bits and no profile', async () => {
    const all = Uint8Array.from({ length: 256 }, (_, i) => i);
    expect(await readByOthers(greyPng(32, 8, all))).toEqual({
      ...{ space: 'b-w', channels: 1, depth: 'uchar', hasProfile: false },
      ...{ width: 32, height: 8, data: Buffer.from(all) },
    });
  });

  it('holds any numbers of any size', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.integer({ min: 1, max: 40 }),
        fc.uint8Array({ minLength: 1, maxLength: 600 }),
        async (width, some) => {
          const height = Math.ceil(some.length / width);
          const grey = new Uint8Array(width * height);
          grey.set(some);
          const { data, ...size } = await readByOthers(greyPng(width, height, grey));
          expect(size).toMatchObject({ width, height });
          expect(data).toEqual(Buffer.from(grey));
        },
      ),
      { numRuns: 40 },
    );
  });

  it('is a few kilobytes for a frame with holes along edges', () => {
    const strip = holesOf(512, 640, (x, y) => (Math.abs(x - 200 - y / 5) < 4 ? 255 : 0));
    expect(greyPng(512, 640, strip.holes).length).toBeLessThan(10_000);
  });

  it('refuses numbers that are not a whole picture', () => {
    expect(() => greyPng(3, 2, new Uint8Array(5))).toThrow(/3 × 2 samples, received 5/);
    expect(() => greyPng(0, 0, new Uint8Array(0))).toThrow(/received 0/);
  });
});

describe('the places that are kept', () => {
  it('are the pixels themselves up to 640 of them, and a copy', () => {
    const made = holesOf(600, 3, (x, y) => (x * 7 + y) % 256);
    const kept = keptPlaces(made);
    expect(kept).toEqual(made);
    expect(kept.holes.buffer).not.toBe(made.holes.buffer);
  });

  it('have the frame’s shape and never more than 640 a side', () => {
    expect(keptSize(1600, 2000)).toEqual({ columns: 512, rows: 640 });
    expect(keptSize(4000, 3000)).toEqual({ columns: 640, rows: 480 });
    expect(keptSize(641, 5)).toEqual({ columns: 640, rows: 5 });
    expect(keptSize(20_000, 10)).toEqual({ columns: 640, rows: 1 });
    expect(keptSize(1, 1)).toEqual({ columns: 1, rows: 1 });
  });

  it('are means of the pixels they stand for, cut pixels by their part', () => {
    // 1280 × 2 → 640 × 1, two by two pixels a place: (255 + 255 + 58 + 0) / 4 = 142.
    const two = keptPlaces(
      holesOf(1280, 2, (x, y) => (x === 4 ? 255 : x === 5 && y === 0 ? 58 : 0)),
    );
    expect([...two.holes].flatMap((share, i) => (share > 0 ? [[i, share]] : []))).toEqual([
      [2, 142],
    ]);
    // 960 → 640: places of one and a half pixels. Pixel 1, of 240, lies half in each of two: 240 × ½ / 1½.
    const three = keptPlaces(holesOf(960, 1, (x) => (x === 1 ? 240 : 0)));
    expect([...three.holes.subarray(0, 4)]).toEqual([80, 80, 0, 0]);
    const whole = keptPlaces(holesOf(960, 1500, () => 255));
    expect(new Set(whole.holes)).toEqual(new Set([255]));
  });

  it('leave no filled pixel out, however large the frame', () => {
    // One pixel of 1 in a place of 2.5 × 2.5 would round to nothing. It lies in 775 … 777.5, 332.5 … 335.
    const kept = keptPlaces(holesOf(1600, 1000, (x, y) => (x === 776 && y === 333 ? 1 : 0)));
    const at = 133 * 640 + 310;
    expect([...kept.holes].flatMap((share, i) => (share > 0 ? [[i, share]] : []))).toEqual([
      [at, 1],
    ]);
  });

  it('keep the share of the frame that was filled', () => {
    const made = holesOf(1500, 900, (x, y) => (x % 90 < 11 ? 255 : (y * 31) % 200));
    const mean = (of: Uint8Array) => of.reduce((sum, share) => sum + share, 0) / of.length;
    expect(mean(keptPlaces(made).holes)).toBeCloseTo(mean(made.holes), 1);
  });
});

describe('where it was filled', () => {
  it('goes by thirds of the picture, each of all that was filled', () => {
    // Three left at the top, one right at the foot, of a picture 9 × 6.
    const places = holesOf(9, 6, (x, y) => (y === 0 && x < 3 ? 255 : y === 5 && x === 8 ? 255 : 0));
    expect(thirdsOf(places)).toEqual({ across: [0.75, 0, 0.25], down: [0.75, 0, 0.25] });
    expect(thirdsOf(holesOf(4, 4, () => 0))).toBeUndefined();
  });
});
