/**
 * Rails of a real page under a lens laid on askew, looked at through the bench's exact ray trace: even
 * from end to end when square, and stripes whose count gives the angle back within a tenth.
 */
import { describe, expect, it } from 'vitest';
import { pageComposer, wovenRowsFor } from '../../src/core/sheet/page-rows.ts';
import { railLightAt, skewFromStripes } from '../../src/core/sheet/rails.ts';
import type { Job } from '../../src/job/schema/job.ts';
import { newJob } from '../../src/job/schema/job.ts';
import { pageToWeave, setPage } from '../../src/job/facts/page.ts';
import { sheetSpecOf } from '../../src/job/facts/sheet.ts';
import { lookThrough } from './lens-bench.ts';
import { lensInFocus } from './press.ts';

const DISTANCE_MM = 400;
const HEIGHT_MM = 200;
const lens = lensInFocus(40, 0.55);

const jobOf = (): Job => {
  const base = newJob();
  return setPage(
    {
      ...base,
      lens: {
        pitchMm: lens.pitchMm,
        thicknessMm: lens.thicknessMm,
        index: lens.index,
        radiusMm: lens.radiusMm,
      },
      print: { widthMm: 30, heightMm: HEIGHT_MM, viewingDistanceMm: DISTANCE_MM },
    },
    { on: true, paper: 'a3', bleedMm: 0 },
  );
};

/** Light of the left side rail at evenly spread heights, with the lens turned about the print's middle. */
const railLight = (skewRad: number, heights: number) => {
  const job = jobOf();
  const sheet = sheetSpecOf(job);
  const page = pageToWeave(job, 'mm', '2025-11-25');
  const rail = page?.rails[0];
  if (page === undefined || rail === undefined) throw new Error('no rails');
  const compose = pageComposer(page, sheet);
  const woven = new Uint8Array(sheet.widthDots * 3).fill(120);
  const middleX = (page.woven.left + page.woven.right) / 2;
  // The bench's print has its middle at 0: take a stretch of the page symmetric about the woven middle.
  const aside = middleX - rail.left;
  const width = 2 * aside;
  const lightAt = (y: number) => {
    const row = { firstRow: y, rowCount: 1 };
    const line = compose(row, wovenRowsFor(page, row) && woven);
    const rgb = line.subarray(rail.left * 3, (rail.left + width) * 3);
    const fromMiddleMm = ((y + 0.5 - (page.woven.top + page.woven.bottom) / 2) * 25.4) / 720;
    const seen = lookThrough(
      lens,
      { rgb, widthDots: width, heightDots: 1, acrossDpi: 720, lensRibs: 'upright' },
      { acrossMm: 0, distanceMm: DISTANCE_MM },
      { shiftMm: Math.tan(skewRad) * fromMiddleMm },
    );
    // Ribs over the rail, those whose rays end off it left out.
    const ribs = Math.floor(((rail.right - rail.left) * 25.4) / 720 / lens.pitchMm) - 3;
    let sum = 0;
    for (let rib = 1; rib <= ribs; rib += 1) sum += seen.light[rib * 3] as number;
    return sum / ribs;
  };
  const length = rail.bottom - rail.top;
  return {
    lengthMm: (length * 25.4) / 720,
    light: Array.from({ length: heights }, (_, i) =>
      lightAt(rail.top + Math.floor(((i + 0.5) * length) / heights)),
    ),
  };
};

/**
 * Cycles along the rail of the wave that fits best by least squares: a constant, a sinusoid and its
 * overtone, made orthogonal one after another so that a fraction of a cycle is told as well.
 */
const stripesIn = (light: readonly number[]): number => {
  const dot = (a: readonly number[], b: readonly number[]) =>
    a.reduce((sum, value, i) => sum + value * (b[i] as number), 0);
  const fitted = (cycles: number) => {
    const turns = light.map((_, i) => (2 * Math.PI * cycles * (i + 0.5)) / light.length);
    const waves = [1, 2].flatMap((n) => [
      turns.map((turn) => Math.cos(n * turn)),
      turns.map((turn) => Math.sin(n * turn)),
    ]);
    const basis: number[][] = [];
    let power = 0;
    for (const wave of [light.map(() => 1), ...waves]) {
      let rest: number[] = wave;
      for (const unit of basis) {
        const along = dot(rest, unit);
        rest = rest.map((value, i) => value - along * (unit[i] as number));
      }
      const length = Math.sqrt(dot(rest, rest));
      const unit = rest.map((value) => value / length);
      basis.push(unit);
      power += dot(light, unit) ** 2;
    }
    return power;
  };
  let best = 1;
  let most = 0;
  for (let cycles = 1; cycles < 12; cycles += 0.02) {
    const power = fitted(cycles);
    if (power > most) [best, most] = [cycles, power];
  }
  return best;
};

/** Pearson's correlation. */
const correlation = (a: readonly number[], b: readonly number[]): number => {
  const off = (values: readonly number[]) => {
    const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
    return values.map((value) => value - mean);
  };
  const [x, y] = [off(a), off(b)];
  const dot = (p: readonly number[], q: readonly number[]) =>
    p.reduce((sum, value, i) => sum + value * (q[i] as number), 0);
  return dot(x, y) / Math.sqrt(dot(x, x) * dot(y, y));
};

/** Light of the top end rail, rib by rib from its left end, under a lens of another pitch than stated. */
const endRailLight = (pitchScale: number) => {
  const sheet = sheetSpecOf(jobOf());
  const page = pageToWeave(jobOf(), 'mm', '2025-11-25');
  const rail = page?.rails[2];
  if (page === undefined || rail === undefined) throw new Error('no rails');
  const line = pageComposer(page, sheet)({ firstRow: rail.top + 3, rowCount: 1 }, undefined);
  const seen = lookThrough(
    lens,
    {
      rgb: line.subarray(rail.left * 3, rail.right * 3),
      widthDots: rail.right - rail.left,
      heightDots: 1,
      acrossDpi: 720,
      lensRibs: 'upright',
    },
    { acrossMm: 0, distanceMm: DISTANCE_MM },
    { pitchScale },
  );
  // Ribs at the very ends look past the rail.
  const ribs = Array.from({ length: seen.ribs - 4 }, (_, i) => i + 2);
  return {
    light: ribs.map((rib) => seen.light[rib * 3] as number),
    lengthIn: (ribs.length * lens.pitchMm * pitchScale) / 25.4,
  };
};

describe('rails under the lens', () => {
  it('are drawn on the bench as the ray trace sees them', () => {
    const skewRad = (0.5 * Math.PI) / 180;
    const { light, lengthMm } = railLight(skewRad, 120);
    const drawn = light.map((_, i) =>
      railLightAt(
        { skewRad, pitchMm: lens.pitchMm, driftPerMm: 0, smear: 0.1 },
        0,
        ((i + 0.5) / light.length - 0.5) * lengthMm,
      ),
    );
    expect(correlation(light, drawn)).toBeGreaterThan(0.9);
  });

  it('are even from end to end when it lies square', () => {
    const { light } = railLight(0, 24);
    expect(Math.max(...light) - Math.min(...light)).toBeLessThan(0.02);
  });

  it.each([0.3, -0.5, 0.8, 1.2])('read back a skew of %f° within a tenth', (degrees) => {
    const { light, lengthMm } = railLight((degrees * Math.PI) / 180, 120);
    expect(Math.max(...light) - Math.min(...light)).toBeGreaterThan(0.3);
    const read = skewFromStripes(stripesIn(light), lengthMm, lens.pitchMm);
    expect(Math.abs((read.skewRad * 180) / Math.PI)).toBeGreaterThan(0.9 * Math.abs(degrees));
    expect(Math.abs((read.skewRad * 180) / Math.PI)).toBeLessThan(1.1 * Math.abs(degrees));
  });

  it('stand even at the ends when the pitch is right, however the lens is turned', () => {
    const { light } = endRailLight(1);
    expect(Math.max(...light) - Math.min(...light)).toBeLessThan(0.06);
  });

  // Relation 9: |LPI_print − LPI_v| × W cycles across.
  it.each([1.04, 0.95, 1.08])('count a pitch off by %f at the ends within a tenth', (scale) => {
    const { light, lengthIn } = endRailLight(scale);
    const lpi = 25.4 / lens.pitchMm;
    const beats = Math.abs(lpi - lpi / scale) * lengthIn;
    expect(Math.max(...light) - Math.min(...light)).toBeGreaterThan(0.3);
    expect(stripesIn(light) / beats).toBeGreaterThan(0.9);
    expect(stripesIn(light) / beats).toBeLessThan(1.1);
  });
});
