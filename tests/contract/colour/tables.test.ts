/** Tables of profiles: against the engine itself, and against the build of Little CMS that libvips has. */
import { createRequire } from 'node:module';
import { TYPE_CMYK_16, TYPE_Lab_16, TYPE_RGB_16, instantiate } from 'lcms-wasm';
import sharp from 'sharp';
import { describe, expect, test, vi } from 'vitest';
import { deltaE00 } from '../../../src/core/colour/icc/delta-e.ts';
import type { Intent } from '../../../src/core/colour/icc/device-space.ts';
import { convertDots } from '../../../src/core/colour/icc/device-table.ts';
import { readProfile } from '../../../src/core/colour/icc/profile.ts';
import { toDevice } from '../../../workers/colour/engine-tables.ts';
import { found, lookTable, printTable } from '../../../workers/colour/read.ts';
import { seeded } from '../../core/numeric/kernel-rooms.ts';
import { cmykProfile, fileOf, rgbProfile } from './published.ts';

vi.mock('lcms-wasm/dist/lcms.wasm?url', () => ({
  default: createRequire(import.meta.url).resolve('lcms-wasm/dist/lcms.wasm'),
}));

type Bytes = Uint8Array<ArrayBuffer>;

const DOTS = 8_000;
/** Colours all over, every fifth of them dark: there the eye sees most. */
const colours = (): Bytes => {
  const below = seeded(5);
  return Uint8Array.from({ length: DOTS * 3 }, (_, i) => below(i % 15 < 3 ? 40 : 256));
};

const converted = async (profile: Bytes, intent: Intent, codes: Uint8Array) => {
  const { table } = await printTable({ id: 'a', ...fileOf(profile), intent });
  const nodes = new Uint16Array(await table.nodes.arrayBuffer());
  return convertDots(codes, { channels: table.channels, nodes });
};

/** ΔE00 between two sets of printer's numbers, 16 bit: relative colorimetric, by the engine. */
const apart = async (profile: Bytes, format: number, one: Uint16Array, other: Uint16Array) => {
  const lcms = await instantiate();
  const device = lcms.cmsOpenProfileFromMem(profile, profile.length);
  const toLab = lcms.cmsCreateTransform(
    device,
    format,
    lcms.cmsCreateLab4Profile(),
    TYPE_Lab_16,
    1,
    0x100,
  );
  const [a, b] = [one, other].map((numbers) => lcms.cmsDoTransform(toLab, numbers, DOTS));
  // ICC.1:2022, 6.3.4.2.
  const lab = (numbers: Uint16Array | undefined, dot: number) => {
    const [l = 0, x = 0, y = 0] = numbers?.subarray(dot * 3, dot * 3 + 3) ?? [];
    return [l / 655.35, x / 257 - 128, y / 257 - 128] as const;
  };
  let [sum, worst] = [0, 0];
  for (let dot = 0; dot < DOTS; dot += 1) {
    const far = deltaE00(lab(a, dot), lab(b, dot));
    sum += far;
    worst = Math.max(worst, far);
  }
  return { mean: sum / DOTS, worst };
};

describe('a table of a profile', () => {
  for (const [what, profileOf, format] of [
    ['press', cmykProfile, TYPE_CMYK_16],
    ['screen', () => rgbProfile('p3'), TYPE_RGB_16],
  ] as const)
    test(`${what}: within ΔE00 0.2 of the engine in the mean and 1 at worst`, async () => {
      const profile = await profileOf();
      const codes = colours();
      for (const intent of what === 'press'
        ? (['relative', 'absolute'] as const)
        : (['relative'] as const)) {
        const ours = await converted(profile, intent, codes);
        const engine = await toDevice(
          { bytes: profile, facts: readProfile(profile) },
          intent,
          codes,
        );
        const { mean, worst } = await apart(
          profile,
          format,
          Uint16Array.from(ours, (code) => code * 257),
          engine,
        );
        expect(mean, intent).toBeLessThan(0.2);
        expect(worst, intent).toBeLessThan(1);
      }
    });

  test('of sRGB leaves every dot as it is', async () => {
    const codes = colours();
    for (const intent of ['relative', 'absolute'] as const)
      expect(await converted(await rgbProfile('srgb'), intent, codes)).toEqual(codes);
  });

  test('a picture through it is the picture that libvips converts', async () => {
    const [width, height] = [200, 100];
    const picture = await sharp({
      create: { width, height, channels: 3, background: '#2d7f88' },
    })
      .composite([
        {
          input: Buffer.from(
            `<svg width="${width}" height="${height}"><defs><linearGradient id="g"><stop offset="0" stop-color="#001020"/><stop offset="0.5" stop-color="#f07030"/><stop offset="1" stop-color="#fffbe0"/></linearGradient></defs><rect width="${width}" height="60" fill="url(#g)"/></svg>`,
          ),
        },
      ])
      .removeAlpha()
      .raw()
      .toBuffer();
    const raw = { raw: { width, height, channels: 3 as const } };
    // libvips converts perceptually unless it is told otherwise, black point compensated.
    for (const [profile, name] of [
      [await cmykProfile(), 'cmyk'],
      [await rgbProfile('p3'), 'p3'],
    ] as const) {
      const theirs = await sharp(picture, raw)
        .withIccProfile(name)
        .tiff({ compression: 'none' })
        .toBuffer();
      const page = await sharp(theirs).metadata();
      // Read as they are: sharp would convert them back. libvips writes the rows behind an 8-byte header.
      const channels = page.channels;
      const wanted = theirs.subarray(8, 8 + width * height * channels);
      const ours = await converted(profile, 'perceptual', picture);
      expect(ours).toHaveLength(wanted.length);
      const off = ours.map((code, i) => Math.abs(code - (wanted[i] ?? 255)));
      // Its engine merges the steps of a conversion into a coarser table for presses.
      expect(Math.max(...off), name).toBeLessThanOrEqual(name === 'p3' ? 1 : 10);
      expect(off.reduce((sum, one) => sum + one, 0) / off.length, name).toBeLessThan(0.5);
    }
  });
});

describe('the look of a print', () => {
  /** The look of a few colours: red, green, blue, ΔE00 in tenths. */
  const lookOf = async (profile: Bytes, paperWhite: boolean, codes: readonly number[]) => {
    const request = { id: 'a', ...fileOf(profile), intent: 'relative', paperWhite } as const;
    const { channels, nodes } = await lookTable(request);
    const table = { channels, nodes: new Uint16Array(await nodes.arrayBuffer()) };
    return [...convertDots(Uint8Array.from(codes), table)];
  };

  test('of a press: its black is no screen’s black, its pure blue is missed, its grey is met', async () => {
    const press = await cmykProfile();
    const [black, blue, grey, white] = [0, 4, 8, 12];
    const look = await lookOf(press, false, [0, 0, 0, 0, 0, 255, 128, 128, 128, 255, 255, 255]);
    expect(look[black]).toBeGreaterThan(8);
    expect(look[blue + 3]).toBeGreaterThan(50);
    expect(look[grey + 3]).toBeLessThan(15);
    expect(look.slice(white, white + 3)).toEqual([255, 255, 255]);
    const onPaper = await lookOf(press, true, [255, 255, 255]);
    expect(Math.min(...onPaper.slice(0, 3))).toBeLessThan(252);
  });

  test('of sRGB is sRGB, and misses nothing', async () => {
    const look = await lookOf(await rgbProfile('srgb'), true, [10, 200, 30, 255, 0, 255]);
    expect(look).toEqual([10, 200, 30, 0, 255, 0, 255, 0]);
  });
});

/** Bytes changed, parts cut out, words turned into great numbers. */
const damagedBy = (profile: Bytes, below: (most: number) => number): Bytes => {
  const bytes = profile.slice(0, below(3) === 0 ? below(profile.length) : profile.length);
  const [inHead, all] = [Math.min(600, bytes.length), bytes.length];
  for (let i = below(12); i >= 0 && all > 0; i -= 1)
    bytes[below(2) === 0 ? below(inHead) : below(all)] = below(3) === 0 ? 255 : below(256);
  return bytes;
};

const damage = async (times: number) => {
  const profiles = [await cmykProfile(), await rgbProfile('p3')];
  const below = seeded(times);
  let refused = 0;
  for (let i = 0; i < times; i += 1) {
    // A low number of large ones: each is opened by the engine.
    const profile = profiles[i % 4 === 0 ? 0 : 1];
    if (profile === undefined) break;
    try {
      const one = await found({ id: 'a', ...fileOf(damagedBy(profile, below), 'Torn.icc') });
      expect(one.profileId).toMatch(/^[0-9a-f]{32}$/);
    } catch (error) {
      refused += 1;
      expect(error).toMatchObject({ name: 'StudioError', file: 'Torn.icc' });
      expect((error as Error).message).toMatch(/^“Torn.icc” cannot be used .*\.$/);
    }
  }
  expect(refused).toBeGreaterThan(times / 10);
};

describe('a damaged profile gives a profile or a named error', () => {
  test('400 of them', () => damage(400));
  test('5000 of them @wider', () => damage(5000), 600_000);
});
