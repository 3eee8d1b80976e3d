/**
 * Several prints on one lens sheet: laid on whole ribs, apart by their gaps, and parted by cuts from edge to
 * edge. The list of cuts is carried out here by a knife of the test's own.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { GangCut } from '../../../src/core/sheet/gang/gang-cuts.ts';
import { cuttingList } from '../../../src/core/sheet/gang/gang-cuts.ts';
import type { GangGrid, GangSheet } from '../../../src/core/sheet/gang/gang-grid.ts';
import { gangGrid, oddRibs } from '../../../src/core/sheet/gang/gang-grid.ts';
import type { GangLayout } from '../../../src/core/sheet/gang/gang-layout.ts';
import { gangLayouts } from '../../../src/core/sheet/gang/gang-layout.ts';
import type { GangWant } from '../../../src/core/sheet/gang/gang-pack.ts';

/** Millimetres on the lens sheet, from its own corner: across the ribs, along them. */
interface Piece {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

const NEAR = 1e-6;
const near = (a: number, b: number) => Math.abs(a - b) < NEAR;

const printsOf = (grid: GangGrid, layout: GangLayout): Piece[] =>
  layout.places.map(({ firstRib, ribs, topUm, alongUm }) => ({
    left: grid.firstGrooveMm + firstRib * grid.pitchMm,
    right: grid.firstGrooveMm + (firstRib + ribs) * grid.pitchMm,
    top: grid.edgeMm + topUm / 1000,
    bottom: grid.edgeMm + (topUm + alongUm) / 1000,
  }));

/** Carries the list out. Throws where a cut is not from edge to edge of a piece that is there. */
const carryOut = (grid: GangGrid, cuts: readonly GangCut[]): Piece[] => {
  let pieces: Piece[] = [{ left: 0, top: 0, right: grid.acrossMm, bottom: grid.alongMm }];
  for (const cut of cuts) {
    const ribsMm = (ribs: number) => grid.firstGrooveMm + ribs * grid.pitchMm;
    const alongMm = (um: number) => grid.edgeMm + um / 1000;
    const [at, from, to] =
      cut.way === 'along'
        ? [ribsMm(cut.at), alongMm(cut.from), alongMm(cut.to)]
        : [alongMm(cut.at), ribsMm(cut.from), ribsMm(cut.to)];
    const cutThrough = pieces.filter(({ left, right, top, bottom }) =>
      cut.way === 'along'
        ? near(top, from) && near(bottom, to) && left < at - NEAR && at + NEAR < right
        : near(left, from) && near(right, to) && top < at - NEAR && at + NEAR < bottom,
    );
    if (cutThrough.length !== 1) throw new Error(`no whole piece for ${JSON.stringify(cut)}`);
    const [piece] = cutThrough as [Piece];
    const own = cut.way === 'along' ? at - piece.left : at - piece.top;
    const told = cut.way === 'along' ? cut.fromEdge * grid.pitchMm : cut.fromEdge / 1000;
    if (!near(own, told)) throw new Error(`told ${told} from the edge, is ${own}`);
    pieces = pieces.filter((other) => other !== piece);
    pieces.push(
      ...(cut.way === 'along'
        ? [
            { ...piece, right: at },
            { ...piece, left: at },
          ]
        : [
            { ...piece, bottom: at },
            { ...piece, top: at },
          ]),
    );
  }
  return pieces;
};

const samePiece = (a: Piece, b: Piece) =>
  near(a.left, b.left) && near(a.right, b.right) && near(a.top, b.top) && near(a.bottom, b.bottom);

const expectWhole = (grid: GangGrid, layout: GangLayout) => {
  const prints = printsOf(grid, layout);
  layout.places.forEach(({ firstRib, ribs }) => {
    expect(Number.isInteger(firstRib)).toBe(true);
    // The middle of an odd number of ribs is the middle of one of them.
    expect(ribs % 2).toBe(1);
    // From the rib in the sheet's middle, counted in pitches: a whole number.
    expect(Number.isInteger(firstRib + ribs / 2 - grid.ribs / 2)).toBe(true);
  });
  prints.forEach((a, i) => {
    expect(a.left).toBeGreaterThanOrEqual(grid.edgeMm - NEAR);
    expect(a.top).toBeGreaterThanOrEqual(grid.edgeMm - NEAR);
    expect(a.right).toBeLessThanOrEqual(grid.acrossMm - grid.edgeMm + NEAR);
    expect(a.bottom).toBeLessThanOrEqual(grid.alongMm - grid.edgeMm + NEAR);
    for (const b of prints.slice(i + 1)) {
      const across = Math.max(a.left, b.left) - Math.min(a.right, b.right);
      const along = Math.max(a.top, b.top) - Math.min(a.bottom, b.bottom);
      expect(Math.max(across, along)).toBeGreaterThanOrEqual(grid.gapMm - NEAR - 0.001);
    }
  });
  for (const cut of layout.cuts)
    if (cut.way === 'along') expect(Number.isInteger(cut.at)).toBe(true);
  const pieces = carryOut(grid, layout.cuts);
  for (const print of prints)
    expect(pieces.filter((piece) => samePiece(piece, print))).toHaveLength(1);
};

const sheets: fc.Arbitrary<GangSheet> = fc.record({
  acrossMm: fc.double({ min: 60, max: 700, noNaN: true }),
  alongMm: fc.double({ min: 60, max: 700, noNaN: true }),
  edgeMm: fc.double({ min: 0, max: 20, noNaN: true }),
  gapMm: fc.oneof(fc.constant(0), fc.double({ min: 0, max: 8, noNaN: true })),
  pitchMm: fc.double({ min: 0.15, max: 2.6, noNaN: true }),
});

const wantsFor = (sheet: GangSheet): fc.Arbitrary<GangWant[]> =>
  fc
    .array(
      fc.record({
        acrossMm: fc.double({ min: 20, max: 260, noNaN: true }),
        alongMm: fc.double({ min: 20, max: 260, noNaN: true }),
        copies: fc.oneof(fc.integer({ min: 1, max: 9 }), fc.constant('fill' as const)),
      }),
      { minLength: 1, maxLength: 4 },
    )
    .map((wants) =>
      wants.map(({ acrossMm, alongMm, copies }, i) => ({
        id: String(i),
        ribs: oddRibs(acrossMm, sheet.pitchMm),
        alongUm: Math.round(alongMm * 1000),
        copies: copies === 'fill' && i > 0 ? 3 : copies,
      })),
    );

describe('a gang on a lens sheet', () => {
  test('never overlaps, never splits a lenticule, and comes apart by edge-to-edge cuts', () => {
    fc.assert(
      fc.property(
        sheets.chain((sheet) => fc.tuple(fc.constant(sheet), wantsFor(sheet))),
        ([sheet, wants]) => {
          const grid = gangGrid(sheet);
          const layouts = gangLayouts(grid, wants);
          expect(layouts.length).toBeGreaterThan(0);
          layouts.forEach((layout) => expectWhole(grid, layout));
          const wastes = layouts.map(({ wasteShare }) => wasteShare);
          expect(wastes).toEqual([...wastes].sort((a, b) => a - b));
          for (const want of wants) {
            const laid = layouts[0]?.places.filter(({ id }) => id === want.id).length ?? 0;
            if (want.copies !== 'fill') expect(laid).toBeLessThanOrEqual(want.copies);
          }
        },
      ),
      { numRuns: 100, seed: 20261125 },
    );
  });

  test('takes of one size as many as rows and columns hold, counted by hand', () => {
    // 300 mm less 2 × 8 is 284 mm: 670 ribs of 0.42333 mm, 669 to be odd. Prints of 50 mm: 118.1 ribs,
    // 119 cut (117 and 119 are as near as 1.1 and 0.9); gaps of 3 mm: 8 ribs. 5 × 119 + 4 × 8 = 627.
    const grid = gangGrid({ acrossMm: 300, alongMm: 400, edgeMm: 8, gapMm: 3, pitchMm: 25.4 / 60 });
    expect([grid.ribs, grid.gapRibs, oddRibs(50, grid.pitchMm)]).toEqual([669, 8, 119]);
    // Along: 384 mm hold five of 70 mm and four gaps (362 mm).
    const [best] = gangLayouts(grid, [{ id: 'a', ribs: 119, alongUm: 70000, copies: 'fill' }]);
    expect(best?.places).toHaveLength(25);
    // One sheet, 300 × 400: 25 × 119 × 0.42333 × 70 mm² of prints.
    expect(best?.wasteShare).toBeCloseTo(1 - (25 * 119 * (25.4 / 60) * 70) / 120000, 9);
    // Two cuts for each column of prints, then two for each print in it.
    expect(best?.cuts).toHaveLength(10 + 50);
  });

  test('finds most of a sheet that its prints would fill without remainder', () => {
    // Pieces cut from one sheet third by third: laid again, they leave at most 15 % of it bare.
    fc.assert(
      fc.property(fc.array(fc.boolean(), { minLength: 3, maxLength: 3 }), (ways) => {
        const grid = gangGrid({ acrossMm: 243, alongMm: 243, edgeMm: 0, gapMm: 0, pitchMm: 1 });
        let rest = { ribs: 243, alongUm: 243000 };
        const wants: GangWant[] = ways.map((byRibs, i) => {
          const third = byRibs
            ? { ...rest, ribs: rest.ribs / 3 }
            : { ...rest, alongUm: rest.alongUm / 3 };
          const before = third;
          rest = third;
          return { id: String(i), ...before, copies: 2 };
        });
        wants.push({ id: 'last', ...rest, copies: 1 });
        const [best] = gangLayouts(grid, wants);
        expect(best?.wasteShare).toBeLessThan(0.15);
      }),
      { numRuns: 20, seed: 7 },
    );
  });

  test('says of boxes that no edge-to-edge cut parts that there is no list', () => {
    // The pinwheel: four boxes round a middle, each barring the way of another.
    const box = (firstRib: number, topUm: number, ribs: number, alongUm: number) => ({
      firstRib,
      topUm,
      ribs,
      alongUm,
    });
    const wheel = [box(0, 0, 2, 1), box(2, 0, 1, 2), box(1, 2, 2, 1), box(0, 1, 1, 2)];
    const sheet = { along: [0, 3], across: [0, 3] } as const;
    expect(cuttingList(sheet, wheel)).toBeUndefined();
    expect(cuttingList(sheet, wheel.slice(0, 3))).toBeDefined();
  });

  test('begins with the cuts through the whole sheet', () => {
    const grid = gangGrid({ acrossMm: 300, alongMm: 400, edgeMm: 8, gapMm: 3, pitchMm: 0.5 });
    const [best] = gangLayouts(grid, [{ id: 'a', ribs: 119, alongUm: 70000, copies: 12 }]);
    const depth = best?.cuts.map(({ piece }) => piece.length) ?? [];
    expect(depth).toEqual([...depth].sort((a, b) => a - b));
    expect(depth[0]).toBe(0);
  });

  test('holds nothing where the print is larger than what may be used', () => {
    const grid = gangGrid({ acrossMm: 100, alongMm: 100, edgeMm: 8, gapMm: 3, pitchMm: 0.5 });
    const [best] = gangLayouts(grid, [{ id: 'a', ribs: 199, alongUm: 70000, copies: 'fill' }]);
    expect(best).toMatchObject({ places: [], cuts: [], wasteShare: 1 });
  });
});
