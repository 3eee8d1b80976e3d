/**
 * The crosstalk matrix against the bench of tests/golden, which traces on its own: each bundle of light spreads over
 * the stretch where it ends, and dots laid anywhere under it average the slots over their width twice (blended).
 */
import { describe, expect, test } from 'vitest';
import { crosstalk, ownShare, sharesSeen } from '../../../src/core/plan/fit.ts';
import { expectedLeak } from '../../../src/job/facts/expected-leak.ts';
import { newJob } from '../../../src/job/schema/job.ts';
import { dpi, mm } from '../../../src/core/units/units.ts';
import type { BenchLens } from '../../golden/lens-bench.ts';
import { bundlesOfRib } from '../../golden/lens-bench.ts';
import { benchGap, benchPitch } from '../../golden/traced-by-bench.ts';

const distanceMm = 450;
const N = 12;
const bench: BenchLens = {
  pitchMm: 25.4 / 60,
  thicknessMm: 0.8227,
  index: 1.57,
  radiusMm: (0.8227 * 0.57) / 1.57,
};
const lens = { pitchMm: mm(bench.pitchMm), thicknessMm: mm(0.8227), index: 1.57 };
const dotMm = 25.4 / 720;

/** Shares of the slots for an eye, by sampling the landings finely; slot 0 is the leftmost camera's. */
const byTheBench = (eyeMm: number, of: BenchLens = bench, fromMm = distanceMm): number[] => {
  const woven = benchPitch(of, fromMm);
  const shares = new Array<number>(N).fill(0);
  const STEPS = 40;
  for (const { from, to, share } of bundlesOfRib(
    of,
    0,
    { acrossMm: eyeMm, distanceMm: fromMm },
    64,
  ))
    for (let a = 0; a < STEPS; a += 1)
      for (let b = 0; b < STEPS; b += 1) {
        // Two dot widths, uniform each: where in the dot it falls, and what the dot averages.
        const smear = ((a + 0.5) / STEPS + (b + 0.5) / STEPS - 1) * dotMm;
        const u = ((from + to) / 2 + smear) / woven + 0.5;
        const slot = Math.min(N - 1, Math.floor((1 - (u - Math.floor(u))) * N));
        shares[slot]! += share / STEPS / STEPS;
      }
  return shares;
};
const step = (distanceMm * bench.pitchMm) / (N * benchGap(bench));
const rows = Array.from({ length: N }, (_, i) => byTheBench((i - (N - 1) / 2) * step));

describe('60 LPI, 0.8227 mm, n 1.57, twelve views on 720 dpi from 450 mm', () => {
  const printing = { acrossDpi: dpi(720), columns: 'blended' } as const;
  const matrix = crosstalk(lens, printing, N, mm(distanceMm));

  test('every share is that of the bench, within one in a hundred', () => {
    rows.forEach((row, i) =>
      row.forEach((share, j) => expect(Math.abs(matrix[i]![j]! - share)).toBeLessThan(0.01)),
    );
  });

  test('from the eyes of t / n: 8.5 % across the jump, own share 61.5 %', () => {
    // Traced outside, not by this studio; the strip of the same spread around the paraxial landing gave 27.1 % and
    // 54.1 % for these eyes, which stand closer together than the cameras.
    const paraxialStep = (distanceMm * bench.pitchMm * bench.index) / (N * bench.thicknessMm);
    const seen = rows.map((_, i) =>
      sharesSeen(lens, printing, N, mm(distanceMm), (i - (N - 1) / 2) * paraxialStep),
    );
    expect(Math.abs(seen[0]!.at(-1)! - 0.085)).toBeLessThan(0.005);
    expect(Math.abs(ownShare(seen) - 0.615)).toBeLessThan(0.005);
  });

  test('the first view: what its eye sees of the last one, and of itself on average', () => {
    expect(matrix[0]!.at(-1)! / rows[0]!.at(-1)!).toBeCloseTo(1, 1);
    expect(Math.abs(ownShare(matrix) - ownShare(rows))).toBeLessThan(0.005);
  });
});

test('the leak that Ghosts and the verdict go by is that of the bench', () => {
  const usual = { ...bench, thicknessMm: 0.84, index: 1.5685, radiusMm: (0.84 * 0.5685) / 1.5685 };
  // A new job: twelve slots, every second one the other picture; the eye before the sixth.
  const zone = (400 * usual.pitchMm) / benchGap(usual);
  const seen = byTheBench((5.5 / N - 0.5) * zone, usual, 400);
  const own = seen.reduce((sum, share, slot) => sum + (slot % 2 === 1 ? share : 0), 0);
  expect(Math.abs(expectedLeak(newJob()) - (1 - own) / own)).toBeLessThan(0.02);
});
