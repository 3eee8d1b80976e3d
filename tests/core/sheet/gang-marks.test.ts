/**
 * What is printed in the free edge of a lens sheet: a crop mark for every cut of the list, at the groove or line that the
 * test works out for itself from pitch and list, read from the composed dots.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { lettering, textWidthMm } from '../../../src/core/pitch/lettering.ts';
import type { GangCut } from '../../../src/core/sheet/gang/gang-cuts.ts';
import { gangGrid } from '../../../src/core/sheet/gang/gang-grid.ts';
import { gangLayouts } from '../../../src/core/sheet/gang/gang-layout.ts';
import type { GangPlan } from '../../../src/core/sheet/gang/gang-spec.ts';
import { edgeOf, gangSpecOf } from '../../../src/core/sheet/gang/gang-spec.ts';
import type { PageBox } from '../../../src/core/sheet/page-spec.ts';
import { pageComposer } from '../../../src/core/sheet/page-rows.ts';

const DPI = 720;
const dotOf = (lengthMm: number) => (lengthMm * DPI) / 25.4;

interface Setting {
  readonly ribs?: 'upright' | 'lying';
  readonly edgeMm?: number;
  readonly gapMm?: number;
  readonly pitchMm?: number;
  /** Prints of one size alone. */
  readonly alike?: boolean;
}

const planOf = (
  { ribs = 'upright', edgeMm = 8, gapMm = 3, pitchMm = 25.4 / 60, alike = false }: Setting,
  printed: Partial<GangPlan> = {},
): GangPlan => {
  const grid = gangGrid({ acrossMm: 150, alongMm: 120, edgeMm, gapMm, pitchMm });
  const [layout] = gangLayouts(grid, [
    { id: 'a', ribs: 2 * Math.round(15 / pitchMm) + 1, alongUm: 24000, copies: 'fill' },
    ...(alike
      ? []
      : [{ id: 'b', ribs: 2 * Math.round(24 / pitchMm) + 1, alongUm: 41500, copies: 2 }]),
  ]);
  if (layout === undefined) throw new Error('no layout');
  return {
    ...{ grid, layout, ribs, prints: new Map(), acrossDpi: DPI, alongDpi: DPI },
    ...{ viewingPitchMm: pitchMm * 1.001, rails: true, marks: true, label: '' },
    ...printed,
  };
};

/** Whether a dot of the sheet is black, from dots drawn where they are asked for. Rails are left out: they are grey or black. */
const inkOf = (plan: GangPlan) => {
  const { page, whole } = gangSpecOf(plan);
  const compose = pageComposer({ ...page, rails: [] }, whole);
  const rows = new Map<number, Uint8Array>();
  const row = (y: number) => {
    const had = rows.get(y) ?? compose({ firstRow: y, rowCount: 1 }, undefined);
    rows.set(y, had);
    return had;
  };
  return {
    page,
    isBlack: (x: number, y: number) => row(Math.floor(y))[Math.floor(x) * 3] === 0,
  };
};

/** The cut's own place in millimetres from the first edge across or along the ribs, from the list alone. */
const placeOf = ({ grid }: GangPlan, { way, at }: GangCut) =>
  way === 'along' ? grid.firstGrooveMm + at * grid.pitchMm : grid.edgeMm + at / 1000;

/** Black just inside the rim's inner end on the waste's side of each cut, and not on the other. */
const endsMarked = (plan: GangPlan, cut: GangCut, rimMm: number): boolean[] => {
  const { isBlack } = inkOf(plan);
  const upright = plan.ribs === 'upright';
  const { acrossMm, alongMm } = plan.grid;
  const down = (cut.way === 'along') === upright;
  const far = down === upright ? alongMm : acrossMm;
  const place = dotOf(placeOf(plan, cut));
  // Rounded to a dot: two dots to either side are certain.
  const sides = { before: [-2.5], after: [2.5], none: [-2.5, 2.5] }[cut.waste];
  const blank = { before: [2.5, 6], after: [-2.5, -6], none: [] }[cut.waste];
  return [rimMm - 0.15, far - rimMm + 0.15].map((depthMm) => {
    const dotAt = (off: number): boolean =>
      down ? isBlack(place + off, dotOf(depthMm)) : isBlack(dotOf(depthMm), place + off);
    return sides.every(dotAt) && !blank.some(dotAt);
  });
};

const meets = (a: PageBox, b: PageBox) =>
  a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;

describe.each(['upright', 'lying'] as const)('crop marks with %s ribs', (ribs) => {
  // With rails the rim is what they leave: 8 − 0.25 − 4.5 mm.
  test.each([
    [true, 3.25],
    [false, 7.75],
  ])('stand at both ends of every cut of the list, rails %s', (rails, rimMm) => {
    const plan = planOf({ ribs }, { rails });
    expect(plan.layout.cuts.length).toBeGreaterThan(12);
    for (const cut of plan.layout.cuts) expect(endsMarked(plan, cut, rimMm)).toEqual([true, true]);
  });

  test('stand on both sides of the groove where prints touch', () => {
    const plan = planOf({ ribs, gapMm: 0 });
    const touching = plan.layout.cuts.filter(({ waste }) => waste === 'none');
    expect(touching.length).toBeGreaterThan(3);
    for (const cut of touching.filter(({ way }) => way === 'along'))
      expect(endsMarked(plan, cut, 3.25)).toEqual([true, true]);
  });

  test('lie in the free edge, clear of rails, prints and all else, whatever is printed there', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 14, noNaN: true }),
        fc.double({ min: 0, max: 5, noNaN: true }),
        fc.double({ min: 0.25, max: 1.3, noNaN: true }),
        fc.boolean(),
        fc.constantFrom('', 'Kingfisher cards, twelve prints'),
        fc.constantFrom(undefined, 'mm' as const, 'in' as const),
        (edgeMm, gapMm, pitchMm, rails, label, barIn) => {
          const plan = planOf(
            { ribs, edgeMm, gapMm, pitchMm },
            { rails, label, ...(barIn === undefined ? {} : { barIn }) },
          );
          const { page } = inkOf(plan);
          const edge = Math.floor(dotOf(edgeMm));
          const { widthDots, heightDots } = page;
          const usable = {
            left: edge,
            top: edge,
            right: widthDots - edge,
            bottom: heightDots - edge,
          };
          expect(page.ink.filter((box) => meets(box, usable))).toEqual([]);
          expect(page.ink.filter((box) => page.rails.some((rail) => meets(rail, box)))).toEqual([]);
          const off = page.ink.filter(
            (box) =>
              Math.min(box.left, box.top) < 0 || box.right > widthDots || box.bottom > heightDots,
          );
          expect(off).toEqual([]);
          const { words, marks } = edgeOf(plan);
          const strokes = page.ink.slice(0, marks.strokes.length);
          const others = page.ink.slice(marks.strokes.length);
          expect(others.length).toBe(words.length + marks.numbers.length);
          expect(strokes.filter((box) => others.some((other) => meets(box, other)))).toEqual([]);
        },
      ),
      { numRuns: 25, seed: 20261201 },
    );
  });
});

describe('the numbers at crop marks', () => {
  test('are those of the list, read off at the top beside the stroke, several on one line', () => {
    const plan = planOf({ alike: true });
    const { isBlack } = inkOf(plan);
    const { cuts } = plan.layout;
    const lines = new Map<string, number[]>();
    cuts.forEach(({ way, at, waste }, i) => {
      const key = `${way} ${at} ${waste}`;
      lines.set(key, [...(lines.get(key) ?? []), i + 1]);
    });
    const read = [...lines.values()].filter((numbers) => {
      const cut = cuts[numbers[0]! - 1]!;
      if (cut.way === 'across') return false;
      const text = numbers.join(' ');
      const widthMm = textWidthMm(text, 0.25);
      // On the print's side: the waste's rib is the stroke.
      const left = placeOf(plan, cut) + (cut.waste === 'after' ? -0.4 - widthMm : 0.4);
      const shapes = lettering(text, left, 0, 0.25);
      const isInk = (x: number, y: number) =>
        shapes.some(
          ({ across, along, width, height }) =>
            x > across && x < across + width && y > along && y < along + height,
        );
      for (let row = 0; row < 7; row += 1)
        for (let column = 0; column * 0.25 < widthMm; column += 1) {
          const [x, y] = [left + (column + 0.5) * 0.25, (row + 0.5) * 0.25];
          // Seven squares high, at the inner end of a rim of 3.25 mm.
          if (isBlack(dotOf(x), dotOf(y + 3.25 - 1.75)) !== isInk(x, y)) return false;
        }
      return true;
    });
    const along = [...lines.values()].filter((numbers) => cuts[numbers[0]! - 1]!.way === 'along');
    expect(along.length).toBeGreaterThan(5);
    expect(read).toHaveLength(along.length);
  });

  test('and marks are counted where they find no room', () => {
    const without = (edgeMm: number) => edgeOf(planOf({ edgeMm, alike: true })).marks;
    const { cuts } = planOf({ edgeMm: 0.5, alike: true }).layout;
    // 0.5 mm less the gap of 0.25 leave less than half a millimetre.
    expect(without(0.5)).toMatchObject({ strokes: [], unmarked: cuts.length });
    const narrow = without(1);
    expect(narrow.unmarked).toBe(0);
    // 0.75 mm take no figures.
    expect(narrow.unnumbered).toBe(planOf({ edgeMm: 1, alike: true }).layout.cuts.length);
    expect(without(8)).toMatchObject({ unmarked: 0, unnumbered: 0 });
  });
});

describe('label, arrow and bar', () => {
  /** Extent in millimetres of the ink within a box of the sheet. */
  const inkWithin = (
    plan: GangPlan,
    x: readonly [number, number],
    y: readonly [number, number],
  ) => {
    const found = gangSpecOf(plan).page.ink.filter(
      (box) =>
        box.left >= dotOf(x[0]) &&
        box.right <= dotOf(x[1]) &&
        box.top >= dotOf(y[0]) &&
        box.bottom <= dotOf(y[1]),
    );
    const mmOf = (dots: number) => (dots * 25.4) / DPI;
    return {
      count: found.length,
      width: mmOf(
        Math.max(...found.map(({ right }) => right)) - Math.min(...found.map(({ left }) => left)),
      ),
    };
  };

  test('stand in the bottom strip, the arrow in the corner before the label; none where not ticked', () => {
    const plan = planOf({}, { marks: false, label: 'Glasshouse' });
    const label = inkWithin(plan, [8, 142], [117, 120]);
    // Ten letters of six squares of 0.25 mm, less the gap after the last.
    expect(label.width).toBeCloseTo(10 * 6 * 0.25 - 0.25, 1);
    // Its widest row: nine squares.
    expect(inkWithin(plan, [0, 8], [117, 120]).width).toBeCloseTo(9 * 0.25, 1);
    expect(gangSpecOf(planOf({}, { marks: false, rails: false })).page).toMatchObject({
      ink: [],
      rails: [],
    });
  });

  test.each([
    // 134 mm less 15 of label, 10 of figures and gaps of 3: 100 mm are left.
    ['Glasshouse', [117, 120], 'mm', 100],
    // 75 letters take 112 of 134 mm: no 50 mm are left, and the bar goes to the top.
    ['Kingfisher '.repeat(7), [0, 3.25], 'mm', 100],
    ['Glasshouse', [117, 120], 'in', 101.6],
  ] as const)('beside %s the bar has the length it names', (label, strip, barIn, lengthMm) => {
    const bar = planOf({}, { marks: false, label, barIn });
    const { ink } = gangSpecOf(bar).page;
    const lines = ink
      .map(({ left, right, top, bottom }) => ({ width: right - left, top, bottom }))
      .filter(({ width }) => width > dotOf(15));
    expect(lines).toHaveLength(1);
    expect(Math.abs(lines[0]!.width - dotOf(lengthMm))).toBeLessThanOrEqual(1);
    expect(lines[0]!.top).toBeGreaterThan(dotOf(strip[0]));
    expect(lines[0]!.bottom).toBeLessThan(dotOf(strip[1]));
  });
});
