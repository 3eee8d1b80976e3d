/**
 * Two hundred seeded photos of pitch strips: true pitch within ±1 %, printer stretch ±0.3 % each way,
 * skew ±0.5°, camera up to 15° off axis and 300 to 800 mm away, blur, noise, JPEG, uneven light, ink
 * that is not linear. The person measures the distance to the nearest centimetre and types it.
 */
import { bandsOf } from '../../src/core/pitch/strip.ts';
import type { StripSpec } from '../../src/core/pitch/strip.ts';
import { mm } from '../../src/core/units/units.ts';
import type { PhotoReading } from '../../src/core/pitch/photo/photo.ts';
import { readStripPhoto } from '../../src/core/pitch/photo/photo.ts';
import type { BenchLens } from './lens-bench.ts';
import { bundlesOfRib } from './lens-bench.ts';
import { lensInFocus, pitchFor } from './press.ts';
import type { PhotoScene } from './strip-photo-scene.ts';
import { plainScene } from './strip-photo-scene.ts';
import { random, takePhoto } from './strip-photo.ts';

export const CASES = 200;

interface Maker {
  readonly lens: BenchLens;
  readonly spec: StripSpec;
}

const maker = (lines: number, radiusMm: number, spec: Partial<StripSpec>, bands = 13): Maker => {
  const lens = lensInFocus(lines, radiusMm);
  const readFromMm = 400;
  const centreLpi = 25.4 / pitchFor(lens, readFromMm);
  const bandDots = spec.bandDots ?? 2268;
  // A quarter zone a band over the width, as the studio advises.
  const step = Math.floor((0.25 / (bandDots / 720)) * 1000) / 1000;
  return {
    lens,
    spec: {
      acrossDpi: 720,
      alongDpi: 720,
      ribs: 'upright',
      bandsLpi: bandsOf({ centreLpi, spreadLpi: (step * (bands - 1)) / 2, bands }),
      bandDots,
      lensLpi: lines,
      readFromMm,
      barsIn: 'mm',
      ...spec,
    },
  };
};

/** A fine lens, a coarse one, a very round one, a strip with lying ribs, a wide one. */
const makers = [
  maker(60, 0.3, {}),
  maker(40, 0.55, {}),
  maker(75, 0.2, { bandDots: 2268 }, 9),
  maker(60, 0.3, { ribs: 'lying' }),
  maker(60, 0.35, { bandDots: 4400 }, 15),
];

/** Where on the print the turn of one rib is seen, in the mean over the rib's width. */
const seenAt = (lens: BenchLens, rib: number, distanceMm: number): number => {
  let [re, im] = [0, 0];
  const crest = rib * lens.pitchMm;
  for (const { from, to, share } of bundlesOfRib(lens, crest, { acrossMm: 0, distanceMm }, 128)) {
    const turn = (2 * Math.PI * ((from + to) / 2 - crest)) / lens.pitchMm;
    re += share * Math.cos(turn);
    im += share * Math.sin(turn);
  }
  return crest + (Math.atan2(im, re) / (2 * Math.PI)) * lens.pitchMm;
};

/**
 * The pitch at which a print shows no fringe from there, by the bench's trace over the middle 40 mm.
 * Relation 2 is its limit for thin ribs; round ones depart from it by some thousandths of a line.
 */
export const tracedLpi = (lens: BenchLens, distanceMm: number): number => {
  const ribs = Math.round(20 / lens.pitchMm);
  return (25.4 * 2 * ribs) / (seenAt(lens, ribs, distanceMm) - seenAt(lens, -ribs, distanceMm));
};

export interface PhotoCase {
  readonly scene: PhotoScene;
  readonly nominal: BenchLens;
  /** In the print's own inches, from the strip's reading distance. */
  readonly truthLpi: number;
  /** Undefined: left for the studio to judge. */
  readonly typedMm: number | undefined;
}

export const photoCase = (number: number): PhotoCase => {
  const next = random(40_000 + number);
  for (let i = 0; i < 5; i += 1) next();
  const within = (most: number) => (2 * next() - 1) * most;
  const { lens: nominal, spec } = makers[number % makers.length]!;
  const lens = { ...nominal, pitchMm: nominal.pitchMm * (1 + within(0.01)) };
  const stretchAcross = 1 + within(0.003);
  const distanceMm = 300 + 500 * next();
  const wide = spec.bandDots > 3000;
  const scene: PhotoScene = {
    ...plainScene(spec, lens),
    skewRad: within((0.5 * Math.PI) / 180),
    shiftMm: within(lens.pitchMm / 2),
    stretchAcross,
    stretchAlong: 1 + within(0.003),
    lensOverAll: next() < 0.4,
    distanceMm,
    offAxisRad: (next() * 15 * Math.PI) / 180,
    towardsRad: next() * 2 * Math.PI,
    rollRad: within(0.1) + (next() < 0.25 ? Math.PI / 2 : 0),
    widthPx: wide ? 1900 : 1250,
    heightPx: wide ? 1700 : 1350,
    fills: 0.85 + 0.12 * next(),
    blurPx: 0.4 + 0.9 * next(),
    noise: 0.004 + 0.016 * next(),
    jpegQuality: 70 + Math.round(25 * next()),
    falloff: 0.5 * next(),
    falloffTowardsRad: next() * 2 * Math.PI,
    inkGamma: [0.8, 1, 1.3][Math.floor(next() * 3)]!,
    seed: number + 1,
  };
  return {
    scene,
    nominal,
    truthLpi: tracedLpi(lens, spec.readFromMm) * stretchAcross,
    typedMm: Math.round(distanceMm / 10) * 10,
  };
};

export const readingOf = async ({ scene, nominal, typedMm }: PhotoCase): Promise<PhotoReading> => {
  const pixels = await takePhoto(scene);
  return readStripPhoto({
    pixels,
    strip: scene.spec,
    lens: {
      pitchMm: mm(nominal.pitchMm),
      thicknessMm: mm(nominal.thicknessMm),
      index: nominal.index,
      radiusMm: mm(nominal.radiusMm),
    },
    readAtMm: typedMm,
  });
};
