/** How a print is split over lens sheets: whole ribs, shared edges, few sheets. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { layingOrder, tilingOf } from '../../../src/core/sheet/tiles.ts';
import type { SheetSpec } from '../../../src/core/weave/sheet-spec.ts';

const sheetOf = (ribs: SheetSpec['ribs'], across: number, along: number): SheetSpec => {
  const [widthDots, heightDots] = ribs === 'upright' ? [across, along] : [along, across];
  return {
    ...{ widthDots, heightDots, acrossDpi: 720, alongDpi: 360, ribs },
    ...{ viewingPitchMm: 0.42, lensPitchMm: 0.42, offsetMm: 0, viewSlots: 8, columns: 'blended' },
  };
};

describe('a split', () => {
  it('has whole ribs in every tile, edges at grooves and shared, no more tiles than it must', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('upright', 'lying'),
        fc.record({
          across: fc.integer({ min: 200, max: 40000 }),
          along: fc.integer({ min: 10, max: 40000 }),
          bleed: fc.integer({ min: 0, max: 40 }),
          pitchMm: fc.double({ min: 0.15, max: 2.5, noNaN: true }),
          lensAcrossMm: fc.double({ min: 30, max: 900, noNaN: true }),
          lensAlongMm: fc.double({ min: 30, max: 900, noNaN: true }),
        }),
        (ribs, { across, along, bleed, pitchMm, lensAcrossMm, lensAlongMm }) => {
          const { tiles, rows, columns, leastAcross, leastAlong } = tilingOf({
            sheet: sheetOf(ribs, across + 2 * bleed, along + 2 * bleed),
            ...{ bleedAcrossDots: bleed, bleedAlongDots: bleed, pitchMm },
            ...{ usableAcrossMm: lensAcrossMm, usableAlongMm: lensAlongMm },
          });
          const printAcrossMm = (across * 25.4) / 720;
          expect(tiles).toHaveLength(leastAcross * leastAlong);
          expect([rows, columns]).toEqual(
            ribs === 'upright' ? [leastAlong, leastAcross] : [leastAcross, leastAlong],
          );
          for (const tile of tiles) {
            const { fromMm, toMm, ribs: count, fromDot } = tile.across;
            // Grooves: half pitches from the middle of the middle rib.
            for (const edge of [fromMm, toMm])
              expect(Math.abs((edge / pitchMm + 0.5) % 1)).toSatisfy(
                (rest: number) => rest < 1e-6 || rest > 1 - 1e-6,
              );
            expect((toMm - fromMm) / pitchMm).toBeCloseTo(count, 6);
            expect(count * pitchMm).toBeLessThan(lensAcrossMm + 1e-3);
            expect(((tile.along.toDot - tile.along.fromDot) * 25.4) / 360).toBeLessThan(
              lensAlongMm + 25.4 / 360 + 1e-3,
            );
            // The nearest dot of the woven sheet, from its middle.
            const exact = (fromMm * 720) / 25.4 + (across + 2 * bleed) / 2;
            expect(Math.abs(fromDot - exact)).toBeLessThan(0.5 + 1e-6);
            const next = tiles.find((t) => t.row === tile.row && t.column === tile.column + 1);
            if (next !== undefined) expect(next.trim.left).toBe(tile.trim.right);
            const below = tiles.find((t) => t.column === tile.column && t.row === tile.row + 1);
            if (below !== undefined) expect(below.trim.top).toBe(tile.trim.bottom);
          }
          const all = tiles.map((tile) => tile.across);
          const [from, to] = [
            Math.min(...all.map(({ fromMm }) => fromMm)),
            Math.max(...all.map(({ toMm }) => toMm)),
          ];
          // As much of the print as whole ribs cover about its middle.
          expect(from).toBeCloseTo(-to, 6);
          expect(to).toBeLessThan(printAcrossMm / 2 + 1e-3);
          expect(printAcrossMm / 2 - to).toBeLessThan(pitchMm + 1e-3);
          const counts = all.map((span) => span.ribs);
          expect(Math.max(...counts) - Math.min(...counts)).toBeLessThanOrEqual(1);
        },
      ),
      { numRuns: 40 },
    );
  });

  it('is laid from the middle outward, each tile beside one that lies', () => {
    const { tiles } = tilingOf({
      sheet: sheetOf('upright', 17280, 12960),
      ...{ bleedAcrossDots: 0, bleedAlongDots: 0, pitchMm: 25.4 / 60 },
      ...{ usableAcrossMm: 130, usableAlongMm: 310, tilesAcross: 5, tilesAlong: 3 },
    });
    const order = layingOrder({ tiles } as ReturnType<typeof tilingOf>);
    expect([order[0]?.row, order[0]?.column]).toEqual([1, 2]);
    for (const [place, tile] of order.entries()) {
      if (place === 0) continue;
      const beside = order
        .slice(0, place)
        .some((laid) => Math.abs(laid.row - tile.row) + Math.abs(laid.column - tile.column) === 1);
      expect(beside).toBe(true);
    }
  });
});
