/**
 * Prints woven on one gang, the whole lens laid over them, each then cut off and looked at by itself
 * from straight ahead: the ray-traced bench must see of each what it sees of the print woven alone.
 */
import { describe, expect, test } from 'vitest';
import { gangGrid } from '../../src/core/sheet/gang/gang-grid.ts';
import { gangLayouts } from '../../src/core/sheet/gang/gang-layout.ts';
import { gangSpecOf } from '../../src/core/sheet/gang/gang-spec.ts';
import { weaveGangRows } from '../../workers/gang-rows.ts';
import type { Print } from './lens-bench.ts';
import { lookThrough } from './lens-bench.ts';
import { framesOf, inspector, jobOf, lensInFocus, pitchFor, printOf, weaveSheet } from './press.ts';

const DPI = 720;
const DISTANCE_MM = 350;
const RIBS = 121;
const lens = lensInFocus(60, 0.3);
const viewingMm = pitchFor(lens, DISTANCE_MM);
const HEIGHT_DOTS = 24;

const job = jobOf({
  lens,
  distanceMm: DISTANCE_MM,
  dpi: DPI,
  views: 12,
  depthMm: 3,
  sheet: { widthDots: Math.round((RIBS * viewingMm * DPI) / 25.4), heightDots: HEIGHT_DOTS },
});
const frames = framesOf(job);
const heightMm = (HEIGHT_DOTS * 25.4) / 150;

/** Three prints side by side with gaps of 3 mm, and room for rails. */
const woven = async () => {
  const grid = gangGrid({
    ...{ acrossMm: 190, alongMm: heightMm + 16, edgeMm: 8, gapMm: 3 },
    pitchMm: lens.pitchMm,
  });
  const [layout] = gangLayouts(grid, [
    { id: 'a', ribs: RIBS, alongUm: Math.round(heightMm * 1000), copies: 'fill' },
  ]);
  if (layout === undefined) throw new Error('no layout');
  const gang = gangSpecOf({
    ...{ grid, layout, ribs: 'upright', acrossDpi: DPI, alongDpi: 150, label: '' },
    ...{ rails: true, marks: true },
    prints: new Map([['a', { sheet: job.sheet, stack: 0 }]]),
    viewingPitchMm: viewingMm,
  });
  const stack = {
    slots: frames.map((_, i) => i),
    frames: frames.map(({ columns, rows, pixels }) => ({
      columns,
      rows,
      pixels: new Blob([pixels]),
    })),
  };
  const { heightDots, widthDots } = gang.page;
  const rgb = await weaveGangRows(gang, [stack], { firstRow: 0, rowCount: heightDots }, () =>
    Promise.resolve(),
  );
  return { gang, rgb, widthDots, heightDots };
};

const { gang, rgb, widthDots, heightDots } = await woven();
const middles = gang.placed.map(({ left, sheet }) => {
  const cropMm = ((left + sheet.widthDots / 2 - widthDots / 2) * 25.4) / DPI;
  // The lens lies with a rib's middle over the sheet's: the nearest rib is this print's middle one.
  const rib = Math.round(cropMm / lens.pitchMm);
  return { rib, shiftMm: rib * lens.pitchMm - cropMm };
});

/** The dots of one print, cut out of the gang. */
const cutOut = (number: number): Print => {
  const { left, top, sheet } = gang.placed[number]!;
  const own = new Uint8Array(sheet.widthDots * sheet.heightDots * 3);
  for (let y = 0; y < sheet.heightDots; y += 1) {
    const from = ((top + y) * widthDots + left) * 3;
    own.set(rgb.subarray(from, from + sheet.widthDots * 3), y * sheet.widthDots * 3);
  }
  return printOf(sheet, own);
};

describe('a gang under one lens', () => {
  const look = inspector(job);
  const alone = printOf(job.sheet, weaveSheet(job.sheet, frames));

  test('holds three prints with ribs of the lens over their middles', () => {
    expect(gang.placed).toHaveLength(3);
    // Far from the middle of the sheet, where the two pitches have come apart by a sixth of a zone.
    expect(Math.max(...middles.map(({ rib }) => Math.abs(rib)))).toBeGreaterThan(100);
  });

  test.each([0, 1, 2])('shows of print %i, cut off, what the print woven alone shows', (number) => {
    const { shiftMm } = middles[number]!;
    for (const own of [-3, 0, 2.25]) {
      const single = look(alone, own);
      const cut = look(cutOut(number), own, { shiftMm });
      expect(single).toMatchObject({ ok: true });
      expect(cut).toMatchObject({ ok: true });
      expect(Math.abs(cut.psnrDb - single.psnrDb)).toBeLessThan(1.5);
      expect(cut.offSteps).toEqual(single.offSteps);
    }
  });

  test('would not, were the middles apart by woven pitches', () => {
    const number = middles.findIndex(({ rib }) => Math.abs(rib) > 100);
    const { rib, shiftMm } = middles[number]!;
    const wrong = shiftMm - rib * (viewingMm - lens.pitchMm);
    const cut = look(cutOut(number), 0, { shiftMm: wrong });
    expect(cut.ok).toBe(false);
    expect(Math.abs(cut.offSteps[0]!)).toBeGreaterThan(1);
  });

  test('has rails even from end to end for an eye before the middle of the sheet', () => {
    const [, , top] = gang.page.rails;
    if (top === undefined) throw new Error('no rails');
    const row = (top.top + 2) * widthDots * 3;
    const line = rgb.subarray(row, row + widthDots * 3);
    const print = {
      rgb: line,
      widthDots,
      heightDots: 1,
      acrossDpi: DPI,
      lensRibs: 'upright' as const,
    };
    const lightOver = (pitchScale: number) => {
      const seen = lookThrough(
        lens,
        print,
        { acrossMm: 0, distanceMm: DISTANCE_MM },
        { pitchScale },
      );
      const ribs = Array.from({ length: seen.ribs }, (_, i) => i).filter(
        (i) => Math.abs((seen.firstRib + i) * lens.pitchMm) < 80,
      );
      return ribs.map((i) => seen.light[i * 3]!);
    };
    const light = lightOver(1);
    expect(light.length).toBeGreaterThan(300);
    expect(Math.max(...light) - Math.min(...light)).toBeLessThan(0.1);
    // A lens a hundredth coarser shows stripes: the rails judge the whole sheet's grid.
    const off = lightOver(1.01);
    expect(Math.max(...off) - Math.min(...off)).toBeGreaterThan(0.5);
    expect(heightDots).toBe(gang.whole.heightDots);
  });
});
