/**
 * Photos of pitch strips made by ray tracing (strip-photo.ts), read by the studio. Three of the two
 * hundred seeded cases run every day, one in sixteen in the wider run; `npm run bench -- photo` runs
 * them all and reports.
 */
import { describe, expect, it } from 'vitest';
import { threeStepPhase } from '../../src/core/pitch/photo/phase-fit.ts';
import type { PhotoReadRequest } from '../../src/core/pitch/photo/photo.ts';
import { readStripPhoto } from '../../src/core/pitch/photo/photo.ts';
import { beatPeriodMm } from '../../src/core/pitch/fringes.ts';
import type { StripSpec } from '../../src/core/pitch/strip.ts';
import { mm } from '../../src/core/units/units.ts';
import { encoded } from './criterion.ts';
import { CASES, photoCase, readingOf, tracedLpi } from './photo-cases.ts';
import { pitchFor } from './press.ts';
import { gardenScene, renderFrom } from './scene.ts';
import type { PhotoScene } from './strip-photo-scene.ts';
import { plainScene } from './strip-photo-scene.ts';
import { takePhoto } from './strip-photo.ts';

const first = photoCase(0);
const { spec } = first.scene;
const lens = first.scene.lens!;
const plain: PhotoScene = { ...plainScene(spec, lens), widthPx: 1150, heightPx: 1250 };

const asked = (pixels: PhotoReadRequest['pixels'], strip: StripSpec = spec): PhotoReadRequest => ({
  pixels,
  strip,
  lens: {
    pitchMm: mm(first.nominal.pitchMm),
    thicknessMm: mm(first.nominal.thicknessMm),
    index: first.nominal.index,
    radiusMm: mm(first.nominal.radiusMm),
  },
  readAtMm: spec.readFromMm,
});

const read = async (change: Partial<PhotoScene>) =>
  readStripPhoto(asked(await takePhoto({ ...plain, ...change })));

const reasonOf = async (change: Partial<PhotoScene>) => {
  const reading = await read(change);
  if (reading.ok) return 'read';
  expect(reading.sentence).toMatch(/\.$/);
  expect(reading.whatToDo).toMatch(/\.$/);
  return reading.reason;
};

/** Reads one case, holds it to its own three sigmas, and gives how far its pitch is off, in LPI. */
const errorOfCase = async (number: number): Promise<number> => {
  const one = photoCase(number);
  const reading = await readingOf(one);
  if (!reading.ok) throw new Error(`case ${number} refused: ${reading.reason}`);
  const error = Math.abs(reading.pitchLpi - one.truthLpi);
  expect(error, `case ${number}`).toBeLessThan(3 * reading.sigmaLpi);
  expect(Math.abs(reading.skewRad - one.scene.skewRad), `case ${number}`).toBeLessThan(
    4 * reading.skewSigmaRad,
  );
  // The colours tell the same, sign and all.
  expect(reading.phase?.used).toBe(true);
  return error;
};

describe('a photo of a strip', () => {
  it.each([0, 64, 128])('gives the pitch within 0.01 LPI: case %i', async (number) => {
    expect(await errorOfCase(number)).toBeLessThanOrEqual(0.01);
  });

  it('gives the pitch within 0.01 LPI in 95 of 100 @wider', async () => {
    const errors: number[] = [];
    for (let number = 0; number + 16 <= CASES; number += 16) errors.push(await errorOfCase(number));
    const within = errors.filter((error) => error <= 0.01).length;
    expect(within / errors.length).toBeGreaterThanOrEqual(0.95);
  });

  it('states a wider doubt where nobody typed the distance, and holds to it @wider', async () => {
    const one = photoCase(3);
    const typed = await readingOf(one);
    const untyped = await readingOf({ ...one, typedMm: undefined });
    if (!typed.ok || !untyped.ok) throw new Error('refused');
    expect(untyped.cameraFrom).not.toBe('typed');
    expect(untyped.cautions.join(' ')).toContain('type it');
    expect(untyped.sigmaLpi).toBeGreaterThan(2 * typed.sigmaLpi);
    expect(Math.abs(untyped.pitchLpi - one.truthLpi)).toBeLessThan(3 * untyped.sigmaLpi);
  });

  it('shows fringes of the published beat period, and finds the corners', async () => {
    const photo = await takePhoto(plain);
    const reading = readStripPhoto(asked(photo));
    if (!reading.ok) throw new Error(reading.reason);
    const viewing = 25.4 / tracedLpi(lens, spec.readFromMm);
    const widthMm = (spec.bandDots * 25.4) / spec.acrossDpi;
    for (const band of reading.bands) {
      // Amidror (2000): period p1 p2 / |p1 − p2|.
      const periods = widthMm / beatPeriodMm(25.4 / band.bandLpi, viewing);
      expect(Math.abs(band.fringes)).toBeCloseTo(periods, 0);
      expect(Math.abs(Math.abs(band.fittedFringes) - periods)).toBeLessThan(0.03);
    }
    reading.cornersFound.forEach(({ xPx, yPx }, i) => {
      const { xPx: x, yPx: y } = photo.corners[i]!;
      expect(Math.hypot(xPx - x, yPx - y)).toBeLessThan(6);
    });
    // Relation 2 is what the trace tends to: within a part in ten thousand even for ribs as round as these.
    expect(tracedLpi(lens, 400) / (25.4 / pitchFor(lens, 400))).toBeCloseTo(1, 3);
  });

  it('reads the phase by the three-step formula of phase-measuring profilometry', () => {
    // Huang, Zhang: Appl. Opt. 45(21) (2006) (memory): I_k = I' + I'' cos(φ − ⅓ turn, φ, φ + ⅓ turn).
    for (const phi of [-3, -1.2, 0, 0.4, 2.9]) {
      const [a, b, c] = [-1, 0, 1].map(
        (k) => 0.5 + 0.2 * Math.cos(phi + (k * 2 * Math.PI) / 3),
      ) as [number, number, number];
      expect(threeStepPhase(a, b, c)).toBeCloseTo(phi, 10);
    }
  });
});

describe('a photo that cannot support a number is refused', () => {
  it('blurred @wider', async () => {
    expect(await reasonOf({ blurPx: 14 })).toBe('blur');
  });

  it('under a reflection', async () => {
    expect(await reasonOf({ glare: 3 })).toBe('glare');
  });

  it('without a lens', async () => {
    expect(await reasonOf({ lens: undefined })).toBe('lens-turned');
  });

  it('with the ribs crosswise', async () => {
    expect(await reasonOf({ skewRad: Math.PI / 2 })).toBe('lens-turned');
  });

  it('of a strip with bands further apart, or fewer @wider', async () => {
    const wider = spec.bandsLpi.map((one, i) => Math.round((one + 0.1 * (i - 6)) * 1000) / 1000);
    expect(await reasonOf({ spec: { ...spec, bandsLpi: wider } })).toBe('wrong-strip');
    expect(await reasonOf({ spec: { ...spec, bandsLpi: spec.bandsLpi.slice(1, 10) } })).toBe(
      'wrong-strip',
    );
  });

  it('of a strip with other bands, even where every fringe would fit: the labels say otherwise', async () => {
    const higher = spec.bandsLpi.map((one) => Math.round((one + 0.31) * 1000) / 1000);
    expect(await reasonOf({ spec: { ...spec, bandsLpi: higher } })).toBe('wrong-strip');
  });

  it('too small in the photo', async () => {
    expect(await reasonOf({ fills: 0.2 })).toBe('too-small');
  });

  it('of something else altogether', () => {
    const { columns, rows, light } = renderFrom(
      gardenScene(30),
      { xMm: 0, yMm: 0, distanceMm: 500 },
      { leftMm: -50, topMm: -40, widthMm: 100, heightMm: 80 },
      600,
      460,
      1,
    );
    const codes = encoded(light);
    const data = new Uint8ClampedArray(columns * rows * 4).fill(255);
    for (let i = 0; i < columns * rows; i += 1)
      for (let c = 0; c < 3; c += 1) data[i * 4 + c] = codes[i * 3 + c]! * 255;
    const reading = readStripPhoto(asked({ widthPx: columns, heightPx: rows, data }));
    expect(reading.ok ? 'read' : reading.reason).toBe('no-corners');
  });

  it('and pixels that are not as many as they say are an error', () => {
    const data = new Uint8ClampedArray(16);
    expect(() => readStripPhoto(asked({ widthPx: 4, heightPx: 4, data }))).toThrow(/pixels/);
  });
});
