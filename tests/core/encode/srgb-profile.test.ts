/** The sRGB profile, through a colour engine of others (Little CMS) and against published numbers. */
import * as lcms from 'lcms-wasm';
import { beforeAll, describe, expect, test } from 'vitest';
import { srgbProfile } from '../../../src/core/encode/srgb-profile.ts';

/** More of the engine than the studio itself uses. */
interface Engine {
  cmsOpenProfileFromMem(bytes: Uint8Array, length: number): number;
  cmsCreate_sRGBProfile(): number;
  cmsCreateLab4Profile(whitePoint: null): number;
  cmsGetColorSpaceASCII(profile: number): string;
  cmsGetProfileInfoASCII(profile: number, info: number, language: string, country: string): string;
  cmsReadTag_XYZ(profile: number, signature: number): Float64Array | null;
  cmsCreateTransform(
    ...args: [
      from: number,
      inType: number,
      to: number,
      outType: number,
      intent: number,
      flags: number,
    ]
  ): number;
  cmsDoTransform(transform: number, values: ArrayLike<number>, count: number): ArrayLike<number>;
}
const { TYPE_RGB_DBL, TYPE_Lab_DBL, INTENT_RELATIVE_COLORIMETRIC } = lcms as unknown as Record<
  string,
  number
>;

let engine: Engine;
beforeAll(async () => {
  engine = (await lcms.instantiate()) as unknown as Engine;
});

const open = () => {
  const bytes = srgbProfile();
  return engine.cmsOpenProfileFromMem(bytes, bytes.length);
};

/** lcms2.h, BYTES_SH(4): the wrapper has room for four bytes a value, so floats and not doubles. */
const AS_FLOATS = 4;

/** sRGB codes 0 … 255 to CIE Lab under D50, colorimetric. */
const toLab = (profile: number, codes: readonly number[]) => {
  const transform = engine.cmsCreateTransform(
    profile,
    (TYPE_RGB_DBL ?? 0) | AS_FLOATS,
    engine.cmsCreateLab4Profile(null),
    (TYPE_Lab_DBL ?? 0) | AS_FLOATS,
    INTENT_RELATIVE_COLORIMETRIC ?? 0,
    0x0100, // lcms2.h: no optimisation
  );
  expect(transform).not.toBe(0);
  const values = Float32Array.from(codes, (code) => code / 255);
  return Array.from(engine.cmsDoTransform(transform, values, codes.length / 3));
};

describe('the sRGB profile', () => {
  test('is taken by the engine, as RGB with its name', () => {
    const profile = open();
    expect(profile).not.toBe(0);
    expect(engine.cmsGetColorSpaceASCII(profile)).toBe('RGB');
    expect(engine.cmsGetProfileInfoASCII(profile, 0, 'en', 'US')).toMatch(/^sRGB IEC61966-2\.1/);
    expect(srgbProfile().length).toBeLessThan(700);
  });

  test('has the primaries of IEC 61966-2-1 under D50, which add up to D50 to the last bit', () => {
    const profile = open();
    const tag = (name: string) =>
      Array.from(engine.cmsReadTag_XYZ(profile, Buffer.from(name, 'latin1').readUInt32BE()) ?? []);
    const [red, green, blue] = ['rXYZ', 'gXYZ', 'bXYZ'].map(tag);
    // sRGB to XYZ, D50 by Bradford, as published by B. Lindbloom (from memory); he takes D65 as
    // 0.95047, 1, 1.08883, we from x 0.3127, y 0.3290: the last digits differ.
    const published = [
      [0.4360747, 0.2225045, 0.0139322],
      [0.3850649, 0.7168786, 0.0971045],
      [0.1430804, 0.0606169, 0.7141733],
    ];
    [red, green, blue].forEach((colorant, i) =>
      colorant?.forEach((value, c) =>
        expect(Math.abs(value - (published[i]?.[c] ?? NaN))).toBeLessThan(3e-4),
      ),
    );
    // ICC.1:2022, 7.2.16: the header of every profile has D50 as F6D6, 10000, D32D.
    const white = [0, 1, 2].map((c) => (red?.[c] ?? 0) + (green?.[c] ?? 0) + (blue?.[c] ?? 0));
    expect(white.map((value) => value * 65536)).toEqual([0xf6d6, 0x10000, 0xd32d]);
  });

  test('turns sRGB into the Lab it should', () => {
    const lab = toLab(open(), [255, 255, 255, 255, 0, 0, 0, 255, 0, 0, 0, 255, 119, 119, 119]);
    // CIE Lab under D50 of white, red, green and blue of sRGB: published calculators (from memory).
    const published = [
      ...[100, 0, 0, 54.29, 80.81, 69.89, 87.82, -79.29, 80.99, 29.57, 68.3, -112.03],
      // Code 119 is linear 0.184475 by IEC 61966-2-1; L* = 116 ∛Y − 16.
      ...[116 * Math.cbrt(0.184475) - 16, 0, 0],
    ];
    lab.forEach((value, i) => expect(Math.abs(value - (published[i] ?? NaN))).toBeLessThan(0.1));
  });

  test('agrees with the engine’s own sRGB all over the cube', () => {
    const codes: number[] = [];
    for (let i = 0; i < 729; i += 1)
      codes.push((i % 9) * 31.875, (Math.floor(i / 9) % 9) * 31.875, Math.floor(i / 81) * 31.875);
    const ours = toLab(open(), codes);
    const theirs = toLab(engine.cmsCreate_sRGBProfile(), codes);
    let worst = 0;
    for (let i = 0; i < ours.length; i += 3)
      worst = Math.max(worst, Math.hypot(...[0, 1, 2].map((c) => ours[i + c]! - theirs[i + c]!)));
    // A tenth of what an eye can tell apart side by side, ΔE 1 (common practice, no source).
    expect(worst).toBeLessThan(0.1);
  });
});
