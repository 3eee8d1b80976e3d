/** What a depth map's greys mean, against published camera figures, and how it is fitted to its picture. */
import { describe, expect, it } from 'vitest';
import type { DepthMeaning } from '../../../src/core/frames/synth/depth-map.ts';
import { faultOfMeaning, partsOf } from '../../../src/core/frames/synth/depth-map.ts';
import { fitDepth, sameShape } from '../../../src/core/frames/synth/fit-depth.ts';
import { mapOf, pictureOf } from './made-pictures.ts';

describe('what the grey means', () => {
  it('gives the published disparities of the Balloons cameras: white 25.000 px, black 1.000 px', () => {
    // Camera parameters published with the Balloons test sequence (Nagoya University, for MPEG FTV):
    // f 2241.25607 px, spacing 5.0, Znear 448.251214, Zfar 11206.280350. Parallel cameras: f B / Z.
    const [f, spacing, near, far] = [2241.25607, 5, 448.251214, 11206.28035];
    // Any key plane will do: D cancels.
    for (const distance of [500, 2000, 9000]) {
      const meaning: DepthMeaning = {
        kind: 'inverse',
        nearest: near - distance,
        farthest: far - distance,
      };
      const values = Uint8Array.from({ length: 256 }, (_, v) => v);
      const parts = partsOf({ widthPx: 256, heightPx: 1, values, white: 255 }, meaning, distance);
      // A row of sheared cameras moves things by f B (1 / D − 1 / Z): infinity, part 1, by f B / D.
      const slide = (f * spacing) / distance;
      const disparity = (v: number) => slide * (1 - (parts[v] as number));
      expect(disparity(255)).toBeCloseTo(25, 3);
      expect(disparity(0)).toBeCloseTo(1, 3);
      // z = 1 / ((v / 255) (1 / Znear − 1 / Zfar) + 1 / Zfar)
      for (const v of [1, 64, 128, 200])
        expect(disparity(v)).toBeCloseTo(
          f * spacing * ((v / 255) * (1 / near - 1 / far) + 1 / far),
          3,
        );
    }
  });

  it('runs evenly in depth from end to end, whichever end is white', () => {
    const z = (kind: 'near-white' | 'near-black', code: number) => {
      const values = Uint16Array.of(code);
      const [part = 0] = partsOf(
        { widthPx: 1, heightPx: 1, values, white: 65535 },
        { kind, nearest: -140, farthest: 360 },
        400,
      );
      return (400 * part) / (1 - part);
    };
    expect(z('near-black', 0)).toBeCloseTo(-140, 2);
    expect(z('near-black', 65535)).toBeCloseTo(360, 2);
    expect(z('near-black', 13107)).toBeCloseTo(-40, 2);
    expect(z('near-white', 0)).toBeCloseTo(360, 2);
    expect(z('near-white', 52428)).toBeCloseTo(-40, 2);
  });

  it('takes distances as they stand, and empty sky as infinitely far', () => {
    const values = Float32Array.of(200, 400, 800, 0, NaN, Infinity, 1e12);
    const map = { widthPx: 7, heightPx: 1, values, white: 1 };
    const fromCamera = partsOf(map, { kind: 'from-camera', unit: 1 }, 400);
    expect([...fromCamera]).toEqual([-1, 0, 0.5, 1, 1, 1, 1]);
    // The same things counted from the key plane, in units of two.
    const halved = { ...map, values: values.map((value) => (value - 400) / 2) };
    const fromKey = partsOf(halved, { kind: 'from-key', unit: 2 }, 400);
    expect([...fromKey.subarray(0, 3)]).toEqual([-1, 0, 0.5]);
  });

  it('refuses ends that are twisted or behind the cameras, and says why', () => {
    const ends = (nearest: number, farthest: number) =>
      faultOfMeaning({ kind: 'near-white', nearest, farthest }, 400);
    expect(ends(-10, 10)).toBeUndefined();
    expect(ends(10, -10)).toMatch(/below the farthest/);
    expect(ends(-400, 10)).toMatch(/behind the cameras/);
  });
});

describe('a depth map smaller than its picture', () => {
  it('keeps edges where the colours have them, and invents no depth between', () => {
    // A card's edge at pixel 13 falls inside a pixel of the map.
    const picture = pictureOf(32, 8, (x) => (x < 13 ? [60000, 50000, 0] : [0, 9000, 40000]));
    const small = pictureOf(16, 4, (x) =>
      x < 6 ? [60000, 50000, 0] : x === 6 ? [30000, 29500, 20000] : [0, 9000, 40000],
    );
    for (const split of [6, 7]) {
      const parts = mapOf(16, 4, (x) => (x < split ? -0.4 : 0.3));
      const fitted = fitDepth({ widthPx: 16, heightPx: 4, parts }, picture, small, 0.01);
      expect(new Set([...fitted].map((part) => part.toFixed(3)))).toEqual(
        new Set(['-0.400', '0.300']),
      );
      for (let x = 0; x < 32; x += 1)
        if (x < 12 || x > 13) expect(fitted[64 + x]).toBeCloseTo(x < 13 ? -0.4 : 0.3, 5);
    }
  });

  it('is smooth on one surface', () => {
    const picture = pictureOf(64, 8, () => [9, 9, 9]);
    const small = pictureOf(32, 4, () => [9, 9, 9]);
    const parts = mapOf(32, 4, (x) => x / 1000);
    const fitted = fitDepth({ widthPx: 32, heightPx: 4, parts }, picture, small, 0.01);
    for (let x = 2; x < 62; x += 1) expect(fitted[128 + x]).toBeCloseTo((x / 2 - 0.25) / 1000, 6);
  });

  it('is of its shape when only rounded, and not when cropped', () => {
    const of = (widthPx: number, heightPx: number) => ({ widthPx, heightPx });
    expect(sameShape(of(600, 750), of(300, 375))).toBe(true);
    expect(sameShape(of(1601, 2001), of(400, 500))).toBe(true);
    expect(sameShape(of(600, 750), of(600, 700))).toBe(false);
    expect(sameShape(of(600, 750), of(750, 600))).toBe(false);
  });
});
