/**
 * From the exported rig back to depth: the .usda is read by a parser that is not ours, a small ray
 * tracer shoots a plane of known depth with each of its cameras, the core weaves the frames, and two
 * eyes look at the print through the lens bench. The depth that their two pictures give must be the
 * planned one within 5 %.
 */
import { USDAParser } from 'three/addons/loaders/usd/USDAParser.js';
import { describe, expect, test } from 'vitest';
import { perceivedDepth } from '../../src/core/plan/depth.ts';
import type { RigSetting } from '../../src/core/plan/rig.ts';
import { rigOf, seenDepth } from '../../src/core/plan/rig.ts';
import { usdaAnimated } from '../../src/core/plan/usda.ts';
import { mm } from '../../src/core/units/units.ts';
import { reduceFrame } from '../../src/core/weave/reduce.ts';
import type { SourceImage } from '../../src/core/weave/reduce.ts';
import type { BenchLens } from './lens-bench.ts';
import { lookThrough } from './lens-bench.ts';
import type { Job } from './press.ts';
import { jobOf, lensInFocus, printOf, weaveSheet } from './press.ts';

/**
 * The lens of the demos. A round rib opened as wide as this gathers its edges short of the crest's
 * focus: its picture moves 5 to 10 % less than t / n says, which the rig's traced gap allows for.
 */
const demoLens: BenchLens = {
  pitchMm: 25.4 / 60,
  thicknessMm: 0.84,
  index: 1.5685,
  radiusMm: (0.84 * 0.5685) / 1.5685,
};
/** An ordinary fan of lenses: coarse and fine, slender and half-round, in and out of focus. */
const lenses: [string, BenchLens][] = [
  ['60 LPI, slender', lensInFocus(60, 0.45)],
  ['40 LPI', lensInFocus(40, 0.45)],
  ['75 LPI, round', lensInFocus(75, 0.22)],
  ['20 LPI', lensInFocus(20, 1.1)],
  ['60 LPI, a tenth too thin', { ...demoLens, thicknessMm: 0.76 }],
  ['60 LPI, low index', lensInFocus(60, 0.31, 1.49)],
];
const distanceMm = 400;
const views = 12;
/** The scene is in metres, 2.5 m wide at the key plane; the print is 100 mm wide and 10 mm high. */
const keyWidth = 2.5;
const jobFor = (bench: BenchLens) =>
  jobOf({ lens: bench, distanceMm, dpi: 720, views, depthMm: 0 });
const { sheet } = jobFor(demoLens);
const widthMm = (sheet.widthDots * 25.4) / 720;
const heightMm = (sheet.heightDots * 25.4) / 150;
const settingOf = (bench: BenchLens, gain: number, keyDistance: number): RigSetting => ({
  lens: {
    pitchMm: mm(bench.pitchMm),
    thicknessMm: mm(bench.thicknessMm),
    index: bench.index,
    radiusMm: mm(bench.radiusMm),
  },
  viewSlots: views,
  gain,
  printWidthMm: mm(widthMm),
  printHeightMm: mm(heightMm),
  keyWidth,
  keyDistance,
});

interface Camera {
  readonly x: number;
  readonly z: number;
  readonly aperture: number;
  readonly tall: number;
  readonly offset: number;
  readonly focal: number;
}

/** The cameras of an animated .usda, one for each time. */
const camerasIn = (text: string): Camera[] => {
  const layer = new USDAParser().parseText(text) as Record<string, never>;
  const camera = layer['def Xform "Rig"']!['def Camera "Camera"'] as Record<string, unknown>;
  const list = (value: unknown) =>
    String(value)
      .match(/-?[\d.]+(e[-+]?\d+)?/g)!
      .map(Number);
  const one = (key: string) => list(camera[key])[0]!;
  const offsets = camera['float horizontalApertureOffset.timeSamples'] as Record<string, unknown>;
  const places = camera['double3 xformOp:translate.timeSamples'] as Record<string, unknown>;
  return Array.from({ length: views }, (_, i) => ({
    x: list(places[i + 1])[0]!,
    z: list(places[i + 1])[2]!,
    offset: list(offsets[i + 1])[0]!,
    aperture: one('float horizontalAperture'),
    tall: one('float verticalAperture'),
    focal: one('float focalLength'),
  }));
};

/** Stripes on no regular beat, light 0.1 … 0.9, told apart over the whole width; x in metres. */
const stripes = (x: number): number =>
  0.5 +
  0.2 * Math.sin((2 * Math.PI * x) / 0.31) +
  0.2 * Math.sin((2 * Math.PI * x) / 0.173 + 1 + 0.4 * x);

/** A frame of the plane z = −behind: window (±aperture / 2 + offset) / focal (UsdGeomCamera). */
const shoot = (camera: Camera, behind: number, widthPx: number): SourceImage => {
  const heightPx = Math.round((widthPx * camera.tall) / camera.aperture);
  const data = new Uint16Array(widthPx * heightPx * 3);
  const samples = 4;
  for (let column = 0; column < widthPx; column += 1) {
    let light = 0;
    for (let i = 0; i < samples; i += 1) {
      const share = (column + (i + 0.5) / samples) / widthPx;
      const slope = ((share - 0.5) * camera.aperture + camera.offset) / camera.focal;
      light += stripes(camera.x + slope * (camera.z + behind)) / samples;
    }
    const code = Math.round((1.055 * light ** (1 / 2.4) - 0.055) * 65535);
    for (let row = 0; row < heightPx; row += 1)
      data.fill(code, (row * widthPx + column) * 3, (row * widthPx + column + 1) * 3);
  }
  return { widthPx, heightPx, channels: 3, encoding: 'srgb16', data };
};

/** What an eye sees along one line of the print: a value a rib. */
const lineSeen = ({ lens, sheet: woven }: Job, rgb: Uint8Array, acrossMm: number) => {
  const seen = lookThrough(lens, printOf(woven, rgb), { acrossMm, distanceMm });
  const line = Math.floor(seen.lines / 2);
  return new Map(
    Array.from({ length: seen.ribs }, (_, i) => [
      seen.firstRib + i,
      seen.light[(line * seen.ribs + i) * 3]!,
    ]),
  );
};

/** By how many ribs the right eye's picture lies to the right of the left eye's: least squares. */
const shiftBetween = (left: Map<number, number>, right: Map<number, number>): number => {
  const valueAt = (picture: Map<number, number>, at: number) => {
    const whole = Math.floor(at);
    const [a, b] = [picture.get(whole)!, picture.get(whole + 1)!];
    return a + (b - a) * (at - whole);
  };
  const reach = Math.min(...left.keys(), ...right.keys()) + 7;
  let best = { shift: 0, error: Infinity };
  for (let shift = -12; shift <= 12; shift += 0.02) {
    let error = 0;
    // Half the shift to either side, so that both pictures are blurred alike by reading between ribs.
    for (let rib = reach; rib <= -reach; rib += 1)
      error += (valueAt(left, rib - shift / 2) - valueAt(right, rib + shift / 2)) ** 2;
    if (error < best.error) best = { shift, error };
  }
  return best.shift;
};

/** Depth from the shift: d = B z / (D + z) for eyes B apart, on a print seen from D. */
const measuredDepth = (bench: BenchLens, setting: RigSetting, behind: number): number => {
  const job = jobFor(bench);
  const text = usdaAnimated(rigOf(setting), {
    title: 'round trip',
    unitName: 'm',
    unitMm: 1000,
    sensorMm: 36,
  });
  const frames = camerasIn(text).map((camera) => {
    const frame = shoot(camera, behind, 948);
    const area = { left: 0, top: 0, width: frame.widthPx, height: frame.heightPx };
    return reduceFrame(frame, job.sheet, area);
  });
  const rgb = weaveSheet(job.sheet, frames);
  // Three camera places either way: within the paraxial part of the zone.
  const apart = (6 * distanceMm * bench.pitchMm * bench.index) / (views * bench.thicknessMm);
  const pv = bench.pitchMm * (1 + bench.thicknessMm / bench.index / distanceMm);
  const ribs = shiftBetween(lineSeen(job, rgb, -apart / 2), lineSeen(job, rgb, apart / 2));
  const part = (ribs * pv) / apart;
  return (part * distanceMm) / (1 - part);
};

const viewer = (keyWidth * distanceMm) / widthMm;

/** Measured over planned depth, less 1. */
const offBy = (bench: BenchLens, gain: number, behind: number): number => {
  const planned = perceivedDepth(mm((behind * widthMm) / keyWidth), mm(distanceMm), gain);
  return measuredDepth(bench, settingOf(bench, gain, viewer), behind) / planned - 1;
};

describe('the depth seen in the print is the planned one within 5 %', () => {
  test.each([
    [1, 0.12],
    [1, -0.1],
    [0.4, 0.3],
    [0.4, -0.25],
  ])('demo lens, gain %d, a plane %d m behind the key plane', (gain, behind) => {
    expect(Math.abs(offBy(demoLens, gain, behind))).toBeLessThan(0.05);
  });

  test.each(lenses)('%s', (_, bench) => {
    for (const [gain, behind] of [
      [0.7, 0.14],
      [0.7, -0.12],
    ] as const)
      expect(Math.abs(offBy(bench, gain, behind))).toBeLessThan(0.05);
  });

  test('cameras that stand elsewhere than the viewer', () => {
    const setting = settingOf(demoLens, 0.6, 0.7 * viewer);
    const planned = seenDepth(setting, 0.2, mm(distanceMm));
    expect(Math.abs(measuredDepth(demoLens, setting, 0.2) / planned - 1)).toBeLessThan(0.05);
    // The plain relation, which takes the cameras to stand where the viewer does, would be out.
    const plain = perceivedDepth(mm((0.2 * widthMm) / keyWidth), mm(distanceMm), 0.6);
    expect(Math.abs(planned / plain - 1)).toBeGreaterThan(0.003);
  });
});
