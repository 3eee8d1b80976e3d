/** What a job says of its tiles: their number, their paper, where the eye must be, and what is wrong. */
import { describe, expect, it } from 'vitest';
import type { Tile } from '../../../src/core/sheet/tiles.ts';
import { findings } from '../../../src/job/findings/all.ts';
import type { Job } from '../../../src/job/schema/job.ts';
import { newJob } from '../../../src/job/schema/job.ts';
import { restoreJob } from '../../../src/job/schema/migrate.ts';
import { setPage } from '../../../src/job/facts/page.ts';
import {
  eyeWords,
  setTiles,
  splitOf,
  tileMiddleMm,
  tileName,
  tilePageOf,
  tilePaperOf,
  zonesOff,
} from '../../../src/job/facts/tiles.ts';
import { usualGapMm } from '../../golden/traced-by-bench.ts';

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
    // Relation 1: x g' / D, over p; 202.99 × 0.4983 / 1000 / 0.42333 = 0.2389.
    expect(zonesOff(job, left)).toBeCloseTo((202.99 * usualGapMm) / 1000 / (25.4 / 60), 3);
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

  it.each(['rails', 'marks', 'label', 'bar'] as const)(
    'prints %s around a tile where ticked',
    (part) => {
      const none = { rails: false, marks: false, label: false, bar: false };
      const sheetOf = (ticks: Partial<typeof none>) => {
        const job = setPage(poster(), { on: false, ...none, ...ticks });
        const tiling = tilingFor(job);
        const paper = tilePaperOf(job, tiling);
        const page = tilePageOf(
          job,
          tiling,
          tiling.tiles[0] as Tile,
          paper.page,
          'mm',
          '2026-12-01',
        );
        return { paper, page };
      };
      const bare = sheetOf({});
      expect([...bare.page.rails, ...bare.page.ink]).toEqual([]);
      // 480 ribs of 0.42333 mm, 305 mm, 3 mm of overlap and 5 mm of margin at each side: 219 × 321 mm.
      expect(bare.paper.choice).toEqual({ paper: 'b4', onItsSide: false });
      const { page } = sheetOf({ [part]: true });
      expect(page.rails).toHaveLength(part === 'rails' ? 4 : 0);
      // Two strokes at each corner and one at each side; a line, two ticks and "100 MM" in squares.
      if (part === 'marks') expect(page.ink).toHaveLength(12);
      else if (part === 'rails') expect(page.ink).toEqual([]);
      else expect(page.ink.length).toBeGreaterThan(40);
    },
  );

  it('prints all of it around the tiles of a job that has no page', () => {
    const job = poster();
    const tiling = tilingFor(job);
    const { page } = tilePaperOf(job, tiling);
    expect([page.rails, page.marks, page.label, page.bar]).toEqual([true, true, true, true]);
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

  it('say nothing of rails beside the lens where none are printed', () => {
    expect(ids(setPage(poster({ cutOffMm: 4 }), { rails: false }))).toEqual([]);
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
