/**
 * Where a rib's colour belongs. The eye sees rib k at k p on the lens, while its dots lie at k p_v on the print: a
 * frame sampled where the dots lie comes out too small, by 0.117 % for this lens. The eye here is the bench's ray
 * trace, which knows nothing of src, and the truth is what stands at known places of the scene.
 */
import { describe, expect, test } from 'vitest';
import type { BenchLens } from './lens-bench.ts';
import { bundlesOfRib, lookThrough } from './lens-bench.ts';
import type { Job } from './press.ts';
import { framesOf, jobOf, printOf, psnrOf, weaveSheet } from './press.ts';
import type { Plane } from './scene.ts';

/** 60 to the inch, 0.8227 mm, n 1.57, its radius in focus: R = t (n − 1) / n. */
const lens: BenchLens = {
  pitchMm: 25.4 / 60,
  thicknessMm: 0.8227,
  index: 1.57,
  radiusMm: (0.8227 * 0.57) / 1.57,
};
const distanceMm = 450;

/**
 * Pitch of the landings themselves: least squares of the mean landing over the rib's number, for the ribs of a print
 * 100 mm wide and an eye before its middle.
 */
const tracedPitchMm = (() => {
  let [together, squares] = [0, 0];
  for (let rib = 1; rib <= 118; rib += 1) {
    const bundles = bundlesOfRib(lens, rib * lens.pitchMm, { acrossMm: 0, distanceMm });
    const mean = bundles.reduce((sum, { from, to, share }) => sum + (share * (from + to)) / 2, 0);
    together += rib * mean;
    squares += rib * rib;
  }
  return together / squares;
})();

/** By t / n, for comparison. */
const paraxialMm = lens.pitchMm * (1 + lens.thicknessMm / lens.index / distanceMm);

const jobWith = (ribs: 'upright' | 'lying', acrossMm: number, scene: readonly Plane[]): Job => {
  const across = Math.round((acrossMm / 25.4) * 720);
  const size =
    ribs === 'upright'
      ? { widthDots: across, heightDots: 12 }
      : { heightDots: across, widthDots: 12 };
  const sheet = { ribs, ...size, viewingPitchMm: tracedPitchMm };
  return {
    ...jobOf({ lens, distanceMm, dpi: 720, views: 12, depthMm: 0, sheet }),
    scene,
  };
};

test('the traced pitch is that of docs/optics.md, and t / n gives another', () => {
  expect(tracedPitchMm / lens.pitchMm).toBeCloseTo(1.001098, 5.7);
  expect(paraxialMm / lens.pitchMm).toBeCloseTo(1.001165, 5.7);
});

describe.each(['upright', 'lying'] as const)('bars of the key plane, ribs %s', (ribs) => {
  const PLACES = [-95, -48, 0, 31, 95];
  const on = (x: number) => PLACES.some((place) => Math.abs(x - place) < 1.5);
  const bars: Plane[] = [
    { zMm: 0, covers: (x, y) => on(ribs === 'upright' ? x : y), colour: () => [0.9, 0.9, 0.9] },
  ];
  const job = jobWith(ribs, 200, bars);
  /** How far from its true place an eye before the middle sees each bar. */
  const offsOf = (sheet: Job['sheet']) => {
    const print = printOf(sheet, weaveSheet(sheet, framesOf({ ...job, sheet })));
    const seen = lookThrough(lens, print, { acrossMm: 0, distanceMm });
    return PLACES.map((place) => {
      let [sum, moment] = [0, 0];
      for (let i = 0; i < seen.ribs; i += 1) {
        const at = (seen.firstRib + i) * lens.pitchMm;
        const value = Math.abs(at - place) < 4 ? seen.light[i * 3]! : 0;
        sum += value;
        moment += value * at;
      }
      return moment / sum - place;
    });
  };

  test('are seen where they stand, at the edges as in the middle', () => {
    for (const off of offsOf(job.sheet)) expect(Math.abs(off)).toBeLessThan(0.02);
  });

  test('would be seen too far in, were frames sampled where the dots lie', () => {
    const offs = offsOf({ ...job.sheet, lensPitchMm: job.sheet.viewingPitchMm });
    // By 0.001098 × 95 = 0.104 mm, to within the pixels of a frame.
    expect(Math.abs(offs[0]! - 0.104)).toBeLessThan(0.02);
    expect(Math.abs(offs[2]!)).toBeLessThan(0.02);
    expect(Math.abs(offs[4]! + 0.104)).toBeLessThan(0.02);
  });
});

describe('what five eyes see of the garden scene', () => {
  const { scene } = jobOf({ lens, distanceMm, dpi: 720, views: 12, depthMm: 4 });
  const job = jobWith('upright', 200, scene);
  const EYES = [-2.5, -1, 0, 1.5, 3];
  const meanDb = (change: Partial<Job['sheet']>) => {
    const sheet = { ...job.sheet, ...change };
    const print = printOf(sheet, weaveSheet(sheet, framesOf({ ...job, sheet })));
    return EYES.reduce((sum, own) => sum + psnrOf(job, print, own), 0) / EYES.length;
  };

  test('sampling on the lens gains, and the traced pitch gains again', () => {
    // docs/optics.md: an outside bench found 33.07, 33.81 and 34.15 dB on its scene,
    // this one 33.4, 35.8 and 36.2 on a print twice as wide.
    const before = meanDb({ lensPitchMm: paraxialMm, viewingPitchMm: paraxialMm });
    const onLens = meanDb({ viewingPitchMm: paraxialMm });
    const traced = meanDb({});
    expect(onLens - before).toBeGreaterThan(0.7);
    expect(traced - onLens).toBeGreaterThan(0.2);
  });
});
