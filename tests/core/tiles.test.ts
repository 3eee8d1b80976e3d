/** How a print is split over lens sheets: whole ribs, shared edges, few sheets; and what the job says of it. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { layingOrder, tilingOf } from '../../src/core/sheet/tiles.ts';
import type { SheetSpec } from '../../src/core/weave/sheet-spec.ts';
import { findings } from '../../src/job/findings/all.ts';
import type { Job } from '../../src/job/schema/job.ts';
import { newJob } from '../../src/job/schema/job.ts';
import { restoreJob } from '../../src/job/schema/migrate.ts';
import { setPage } from '../../src/job/facts/page.ts';
import {
  eyeWords,
  setTiles,
  splitOf,
  tileMiddleMm,
  tileName,
  tilePaperOf,
  zonesOff,
} from '../../src/job/facts/tiles.ts';

const sheetOf = (ribs: SheetSpec['ribs'], across: number, along: number): SheetSpec => {
  const [widthDots, heightDots] = ribs === 'upright' ? [across, along] : [along, across];
  return {
    ...{ widthDots, heightDots, acrossDpi: 720, alongDpi: 360, ribs },
    ...{ viewingPitchMm: 0.42, offsetMm: 0, viewSlots: 8, columns: 'blended' },
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

/** A poster of 24 × 36 in behind a 60 LPI lens. */
const poster = (change: Parameters<typeof setTiles>[1] = {}): Job =>
  setTiles(
    { ...newJob(), print: { widthMm: 609.6, heightMm: 914.4, viewingDistanceMm: 1000 } },
    { on: true, lensAcrossMm: 300, lensAlongMm: 400, cutOffMm: 8, overlapMm: 3, ...change },
  );

const ids = (job: Job) =>
  findings(job, { prepareFaults: new Map(), arrivalNotes: [] })
    .map(({ id }) => id)
    .filter((id) => id.startsWith('tile'));

const tilingFor = (job: Job) => {
  const split = splitOf(job);
  if (!split.ok) throw new Error(split.message);
  return split.tiling;
};

describe('a poster over lens sheets', () => {
  it('takes three by three of 300 × 400 mm, worked out by hand', () => {
    // 284 mm of 0.42333 mm are 670 ribs; 609.6 mm hold the 1439 whole ribs −719 … 719: 3 tiles of 479
    // or 480. 914.4 mm over 384 mm: 3.
    const { tiles, ribsOnLens, rows, columns } = tilingFor(poster());
    expect([rows, columns, ribsOnLens]).toEqual([3, 3, 670]);
    expect(tiles.slice(0, 3).map(({ across }) => across.ribs)).toEqual([480, 479, 480]);
    expect(tiles.reduce((sum, { row, across }) => sum + (row === 0 ? across.ribs : 0), 0)).toBe(
      1439,
    );
  });

  it('says where the eye must be for an outer tile, and what it would show otherwise', () => {
    const job = poster();
    const tiling = tilingFor(job);
    const [left, middle] = tiling.tiles;
    if (left === undefined || middle === undefined) throw new Error('no tiles');
    // Ribs −719 … −240, and half a rib at each end: (−719.5 − 239.5) / 2 × 0.42333 mm.
    expect(tileMiddleMm(left)).toBeCloseTo(-479.5 * (25.4 / 60), 6);
    expect(eyeWords(job, left)).toBe('203 mm right of its middle');
    expect(eyeWords(job, middle)).toBe('before its middle');
    // Relation 1: x g / D = 202.99 × (0.84 / 1.5685) / 1000 = 0.10871 mm, over 0.42333 mm.
    expect(zonesOff(job, left)).toBeCloseTo(0.2568, 3);
    expect(tileName(tiling, left)).toBe('Row 1 of 3, tile 1 of 3');
  });

  it('finds the smallest listed paper for its tiles, or makes a page that takes them', () => {
    const job = poster();
    // 203 × 305 mm, 16 mm of overlap, rails and marks and 5 mm of margin at each side: 245 mm wide,
    // so not B4 (250 × 353 mm, too short), but the next by area, 11 × 17 in.
    expect(tilePaperOf(job, tilingFor(job)).choice).toEqual({ paper: 'tabloid', onItsSide: false });
    const wide = poster({ lensAcrossMm: 1200, lensAlongMm: 2500 });
    const large = { ...wide, print: { ...wide.print, heightMm: 1800 } };
    const laid = tilePaperOf(large, tilingFor(large));
    expect(laid.choice).toBeUndefined();
    expect(laid.page.paper).toBe('own');
    expect(laid.allMm).toBeLessThanOrEqual(0);
  });

  it('is carried by the job and comes back; a wrong field is named', () => {
    const job = poster();
    expect(restoreJob(JSON.parse(JSON.stringify(job)))).toEqual({ ok: true, job });
    const bad = { ...job, tiles: { ...job.tiles, overlapMm: 80 } };
    const restored = restoreJob(bad);
    expect(restored.ok ? '' : restored.reason).toContain('Overlap must be at most 50 mm');
  });
});

describe('findings on tiles', () => {
  it('have nothing to say of a split that works, or of tiles that are off', () => {
    expect(ids(poster())).toEqual([]);
    expect(ids(poster({ on: false, cutOffMm: 199 }))).toEqual([]);
  });

  it.each([
    [{ cutOffMm: 160 }, ['tiles-impossible']],
    [{ lensAcrossMm: 30, cutOffMm: 8 }, ['tiles-impossible']],
    [{ across: 2 }, ['tiles-too-large']],
    [{ along: 2 }, ['tiles-too-large']],
    [{ paper: 'a5' }, ['tiles-off-paper']],
    [{ cutOffMm: 4 }, ['tiles-rails-bare']],
  ] as const)('tell of %o', (change, expected) => {
    expect(ids(poster(change))).toEqual(expected);
  });

  it.each([[{ across: 2 }], [{ paper: 'a5' }], [{ cutOffMm: 4 }]] as const)(
    'put %o right with one press',
    (change) => {
      const job = poster(change);
      const [finding] = findings(job, { prepareFaults: new Map(), arrivalNotes: [] }).filter(
        ({ id }) => id.startsWith('tile'),
      );
      const action = finding?.action;
      if (action === undefined || !('edit' in action)) throw new Error('no remedy');
      expect(ids(action.edit(job))).toEqual([]);
    },
  );

  it('leave out what the page says of a whole that is not printed in one', () => {
    const job = setPage(poster(), { on: true, paper: 'a4' });
    const all = findings(job, { prepareFaults: new Map(), arrivalNotes: [] }).map(({ id }) => id);
    expect(all.filter((id) => id.startsWith('page'))).toEqual([]);
  });
});
