/**
 * Ghosts under a lens that leaks: rays traced by the bench, through a sheet that is too thin to be in
 * focus, so that an eye in one picture's zone sees a known share of the other's. The bench itself says
 * how much, from a white and a black picture that nothing was taken from.
 */
import { describe, expect, it } from 'vitest';
import { leakOfPatch, PATCHES, SQUARE_MM, wedgeRows } from '../../src/core/weave/ghost-wedge.ts';
import type { WedgeSpec } from '../../src/core/weave/ghost-wedge.ts';
import { evenSlots } from '../../src/core/weave/ghost-wedge.ts';
import { trimSlices } from '../../src/core/weave/ghost.ts';
import { weaveRows } from '../../src/core/weave/band.ts';
import { columnMap } from '../../src/core/weave/column-map.ts';
import type { BenchLens } from './lens-bench.ts';
import { lookThrough } from './lens-bench.ts';
import { lensInFocus, pitchFor } from './press.ts';

const DISTANCE_MM = 400;
const DPI = 720;
const DOTS = 1440; // 2 in

/** In focus but for its thickness: the bundle of a rib is `share` of a rib wide on the print. */
const leaky = (share: number): BenchLens => {
  const lens = lensInFocus(40, 0.55);
  return { ...lens, thicknessMm: lens.thicknessMm * (1 - share) };
};

interface Case {
  readonly viewSlots: number;
  readonly reachSlots: number;
  readonly share: number;
}

const specOf = ({ viewSlots, reachSlots, share }: Case): WedgeSpec => ({
  kind: 'ghost-wedge',
  acrossDpi: DPI,
  alongDpi: DPI,
  ribs: 'upright',
  viewingPitchMm: pitchFor(leaky(share), DISTANCE_MM),
  viewSlots,
  columns: 'blended',
  reachSlots,
  strongest: 0.45,
  patchDots: DOTS,
  readFromMm: DISTANCE_MM,
});

/** An eye before the middle of the stretch of even slots, or of the stretch beside it. */
const eyeBefore = ({ viewSlots, reachSlots, share }: Case, picture: 'even' | 'other'): number => {
  const lens = leaky(share);
  const zoneMm = (lens.pitchMm * DISTANCE_MM * lens.index) / lens.thicknessMm;
  const first = Math.floor((viewSlots - reachSlots) / 2);
  const slots = first + reachSlots / 2 + (picture === 'even' ? 0 : reachSlots);
  // Views follow the eye: view 0 is seen from the left end of the zone.
  return (slots / viewSlots - 0.5) * zoneMm;
};

/** Light of each rib of a row of dots, with where the rib lies. */
const seenFrom = (testCase: Case, row: Uint8Array, picture: 'even' | 'other') => {
  const print = {
    rgb: row,
    widthDots: DOTS,
    heightDots: 1,
    acrossDpi: DPI,
    lensRibs: 'upright' as const,
  };
  const eye = { acrossMm: eyeBefore(testCase, picture), distanceMm: DISTANCE_MM };
  const { firstRib, ribs, light } = lookThrough(leaky(testCase.share), print, eye);
  return Array.from({ length: ribs }, (_, i) => ({ rib: firstRib + i, light: light[i * 3]! }));
};

/** Mean light of the squares that are light in `turn` 0 less that of the dark; ribs at edges left out. */
const figureIn = (ribs: readonly { rib: number; light: number }[], pitchMm: number): number => {
  const found: [number[], number[]] = [[], []];
  for (const { rib, light } of ribs) {
    const at = (rib * pitchMm) / SQUARE_MM;
    if (Math.abs(at - Math.round(at)) <= 0.3)
      found[(Math.abs(Math.round(at)) % 2) as 0 | 1].push(light);
  }
  const mean = (values: number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  return mean(found[1]) - mean(found[0]);
};

/** Two pictures of plain light or squares, woven with or without ghost removal. */
const wovenRow = (
  testCase: Case,
  even: (light: boolean) => number,
  other: (light: boolean) => number,
  leak?: number,
) => {
  const spec = specOf(testCase);
  const sheet = {
    ...spec,
    lensPitchMm: spec.viewingPitchMm,
    widthDots: DOTS,
    heightDots: 1,
    offsetMm: 0,
  };
  const map = columnMap(sheet);
  const picture = (of: (light: boolean) => number) => ({
    columns: map.lenticules,
    rows: 1,
    firstRow: 0,
    pixels: Uint16Array.from({ length: map.lenticules * 3 }, (_, i) => {
      const rib = map.firstLenticule + Math.floor(i / 3);
      return 65535 * of(Math.abs(Math.round((rib * spec.viewingPitchMm) / SQUARE_MM)) % 2 === 1);
    }),
  });
  const plain = {
    frames: [picture(even), picture(other)],
    slots: evenSlots(testCase.viewSlots, testCase.reachSlots).map((is) => (is ? 0 : 1)),
  };
  const rows = { firstRow: 0, rowCount: 1 };
  if (leak === undefined) return { row: weaveRows(sheet, map, plain, rows), clipped: [] };
  const { reachSlots } = testCase;
  const { stack, clipped } = trimSlices(plain, 'upright', { leak, reachSlots, lift: leak });
  return { row: weaveRows(sheet, map, stack, rows), clipped };
};

/** c, from what an eye in the even picture's zone sees of a white one beside a black one. */
const leakSeen = (testCase: Case): number => {
  const { row } = wovenRow(
    testCase,
    () => 1,
    () => 0,
  );
  const ribs = seenFrom(testCase, row, 'even');
  const own = ribs.reduce((sum, { light }) => sum + light, 0) / ribs.length;
  return (1 - own) / own;
};

const cases: readonly Case[] = [
  { viewSlots: 2, reachSlots: 1, share: 0.58 },
  { viewSlots: 2, reachSlots: 1, share: 0.65 },
  { viewSlots: 6, reachSlots: 3, share: 0.6 },
  { viewSlots: 4, reachSlots: 1, share: 0.3 },
];

describe.each(cases)('$viewSlots slots, the other $reachSlots away, spread $share', (testCase) => {
  const leak = leakSeen(testCase);

  it('leaks within what the wedge covers', () => {
    expect(leak).toBeGreaterThan(0.05);
    expect(leak).toBeLessThan(0.42);
  });

  it('has the wedge’s ghost vanish at the patch of that leak', () => {
    const spec = specOf(testCase);
    const figures = wedgeRows(spec).map(([row]) =>
      figureIn(seenFrom(testCase, row, 'even'), spec.viewingPitchMm),
    );
    // Positive ghost before, negative after: the patch between is where it vanishes.
    const after = figures.findIndex((figure) => figure < 0);
    expect(after).toBeGreaterThan(0);
    expect(figures.slice(after).every((figure) => figure < 0)).toBe(true);
    const [before, beyond] = [figures[after - 1]!, figures[after]!];
    const patch = after + before / (before - beyond);
    expect(patch).toBeLessThanOrEqual(PATCHES);
    // Half a patch is as near as a person types.
    expect(Math.abs(leakOfPatch(0.45, patch) - leak)).toBeLessThan(0.015);
  });

  it('shows a fourth of its ghost or less once removed, and nothing is clipped', () => {
    const { viewingPitchMm } = specOf(testCase);
    const ghost = (row: Uint8Array) =>
      Math.abs(
        figureIn(seenFrom(testCase, row, 'even'), viewingPitchMm) /
          figureIn(seenFrom(testCase, row, 'other'), viewingPitchMm),
      );
    const figure = (light: boolean) => (light ? 1 : 0);
    const before = wovenRow(testCase, () => 0.5, figure);
    const after = wovenRow(testCase, () => 0.5, figure, leak);
    expect(after.clipped.every(({ low, high }) => low + high === 0)).toBe(true);
    expect(ghost(before.row)).toBeGreaterThan(0.04);
    expect(ghost(before.row) / ghost(after.row)).toBeGreaterThan(4);
  });
});
