/**
 * Tiles of one print through the real pool, worker service and binder, read back by readers of others
 * and laid side by side again: the whole sheet's dots, every one.
 */
import fc from 'fast-check';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import type { SheetFileType } from '../../src/core/encode/file-types.ts';
import type { PageBox, PageSpec } from '../../src/core/sheet/page-spec.ts';
import { tilingOf } from '../../src/core/sheet/tiles.ts';
import { weaveRows } from '../../src/core/weave/band.ts';
import { columnMap, lenticulesOver } from '../../src/core/weave/column-map.ts';
import type { SheetSpec } from '../../src/core/weave/sheet-spec.ts';
import { memorySink } from '../../src/files/sinks.ts';
import type { Job } from '../../src/job/schema/job.ts';
import { newJob } from '../../src/job/schema/job.ts';
import { sheetSpecOf } from '../../src/job/facts/sheet.ts';
import { setTiles, splitOf, tilePageOf, tilePaperOf } from '../../src/job/facts/tiles.ts';
import { weaveSheet } from '../../src/calls/weave.ts';
import { createWeaveService } from '../../workers/weave-service.ts';
import { InProcessWorker } from './in-process-worker.ts';
import { dotsOfPdf } from './pdf-dots.ts';

beforeAll(() => {
  vi.stubGlobal(
    'Worker',
    class extends InProcessWorker {
      constructor() {
        super(createWeaveService());
      }
    },
  );
});
afterAll(() => vi.unstubAllGlobals());

const ROWS = 13;

/** Frames of a repeatable scramble, so that any dot taken from a wrong place shows. */
const framesOf = (sheet: SheetSpec) => {
  const across = lenticulesOver(sheet).count;
  const [columns, rows] = sheet.ribs === 'upright' ? [across, ROWS] : [ROWS, across];
  return Array.from({ length: sheet.viewSlots }, (_, view) => ({
    columns,
    rows,
    pixels: Uint16Array.from(
      { length: columns * rows * 3 },
      (_, i) => (Math.imul(i + 1, 2654435761) ^ Math.imul(view + 1, 40503)) >>> 16,
    ),
  }));
};

const slotsOf = (sheet: SheetSpec) => Array.from({ length: sheet.viewSlots }, (_, i) => i);

const wovenWhole = (sheet: SheetSpec): Buffer =>
  Buffer.from(
    weaveRows(
      sheet,
      columnMap(sheet),
      { slots: slotsOf(sheet), frames: framesOf(sheet).map((f) => ({ ...f, firstRow: 0 })) },
      { firstRow: 0, rowCount: sheet.heightDots },
    ),
  );

const weaveTile = async (
  sheet: SheetSpec,
  page: PageSpec,
  as: SheetFileType,
  bandBytes: number,
) => {
  const upright = sheet.ribs === 'upright';
  const sink = memorySink('application/octet-stream');
  await weaveSheet(
    {
      sheet,
      page,
      fileType: as,
      bandBytes,
      stack: {
        slots: slotsOf(sheet),
        frames: framesOf(sheet).map((frame) => ({ ...frame, pixels: new Blob([frame.pixels]) })),
      },
      info: {
        width: page.widthDots,
        height: page.heightDots,
        horizontalDpi: upright ? sheet.acrossDpi : sheet.alongDpi,
        verticalDpi: upright ? sheet.alongDpi : sheet.acrossDpi,
        trim: page.trim,
        bleed: page.shown ?? page.woven,
      },
    },
    sink,
    { signal: new AbortController().signal, report: () => undefined },
  );
  const file = Buffer.from(await (await sink.file()).arrayBuffer());
  return as === 'pdf' ? dotsOfPdf(file, page) : sharp(file).removeAlpha().raw().toBuffer();
};

/** Rows of a box out of a picture `width` dots wide; dots beside it are left out. */
const cut = (rgb: Buffer, width: number, box: PageBox): Buffer =>
  Buffer.concat(
    Array.from({ length: box.bottom - box.top }, (_, i) => {
      const at = ((box.top + i) * width + box.left) * 3;
      return rgb.subarray(at, at + (box.right - box.left) * 3);
    }),
  );

const paste = (canvas: Buffer, width: number, piece: Buffer, box: PageBox) => {
  const rowBytes = (box.right - box.left) * 3;
  for (let row = box.top; row < box.bottom; row += 1)
    piece.copy(
      canvas,
      (row * width + box.left) * 3,
      (row - box.top) * rowBytes,
      (row - box.top + 1) * rowBytes,
    );
};

describe.each(['upright', 'lying'] as const)('tiles of a print with %s ribs', (ribs) => {
  test('are windows of the whole sheet, however it is split, bled and banded', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.record({
          across: fc.integer({ min: 90, max: 260 }),
          along: fc.integer({ min: 8, max: 60 }),
          pitchMm: fc.double({ min: 0.3, max: 0.6, noNaN: true }),
          tilesAcross: fc.integer({ min: 1, max: 4 }),
          tilesAlong: fc.integer({ min: 1, max: 3 }),
          overlap: fc.integer({ min: 0, max: 9 }),
          bandBytes: fc.integer({ min: 300, max: 9000 }),
        }),
        async ({ across, along, pitchMm, tilesAcross, tilesAlong, overlap, bandBytes }) => {
          const [widthDots, heightDots] = ribs === 'upright' ? [across, along] : [along, across];
          const sheet: SheetSpec = {
            ...{ widthDots, heightDots, acrossDpi: 720, alongDpi: 360, ribs },
            ...{ viewingPitchMm: pitchMm * 1.0007, lensPitchMm: pitchMm, offsetMm: 0 },
            ...{ viewSlots: 3, columns: 'blended' },
          };
          const { tiles } = tilingOf({
            ...{ sheet, bleedAcrossDots: 2, bleedAlongDots: 1, pitchMm, tilesAcross, tilesAlong },
            ...{ usableAcrossMm: 300, usableAlongMm: 300 },
          });
          const whole = wovenWhole(sheet);
          for (const { trim } of tiles) {
            // Page's corner 5 dots left of and 3 above the overlap.
            const [x, y] = [5 + overlap, 3 + overlap];
            const woven = { left: x - trim.left, top: y - trim.top };
            const box = {
              left: x,
              top: y,
              right: x + trim.right - trim.left,
              bottom: y + trim.bottom - trim.top,
            };
            const page: PageSpec = {
              widthDots: box.right + overlap + 4,
              heightDots: box.bottom + overlap + 2,
              woven: { ...woven, right: woven.left + widthDots, bottom: woven.top + heightDots },
              shown: {
                left: x - overlap,
                top: y - overlap,
                right: box.right + overlap,
                bottom: box.bottom + overlap,
              },
              trim: box,
              rails: [],
              ink: [],
            };
            const wanted = Buffer.alloc(page.widthDots * page.heightDots * 3, 255);
            const window = {
              left: Math.max(0, trim.left - overlap),
              top: Math.max(0, trim.top - overlap),
              right: Math.min(widthDots, trim.right + overlap),
              bottom: Math.min(heightDots, trim.bottom + overlap),
            };
            const at = { left: window.left + woven.left, top: window.top + woven.top };
            paste(wanted, page.widthDots, cut(whole, widthDots, window), {
              ...at,
              right: at.left + window.right - window.left,
              bottom: at.top + window.bottom - window.top,
            });
            expect((await weaveTile(sheet, page, 'png', bandBytes)).equals(wanted)).toBe(true);
          }
        },
      ),
      { numRuns: 5, seed: 20251125 },
    );
  });

  test.each(ribs === 'upright' ? (['png', 'pdf'] as const) : (['tiff'] as const))(
    'cut at their marks and laid side by side as %s',
    async (as) => {
      const job: Job = setTiles(
        {
          ...newJob(),
          ribs,
          viewSlots: 5,
          printer: { carriageDpi: 360, feedDpi: 180 },
          print: { widthMm: 41.3, heightMm: 37.7, viewingDistanceMm: 400 },
        },
        {
          on: true,
          lensAcrossMm: 30,
          lensAlongMm: 30,
          cutOffMm: 2,
          overlapMm: 1.5,
          paper: 'own',
          paperWidthMm: 64,
          paperHeightMm: 140,
        },
      );
      const sheet = sheetSpecOf(job);
      const split = splitOf(job);
      if (!split.ok) throw new Error(split.message);
      const { tiles } = split.tiling;
      expect(tiles).toHaveLength(4);
      const { page: paper, allMm } = tilePaperOf(job, split.tiling);
      expect(allMm).toBeLessThanOrEqual(0);
      const whole = wovenWhole(sheet);
      const laid = Buffer.from(whole);
      const inner = {
        left: Math.min(...tiles.map(({ trim }) => trim.left)),
        top: Math.min(...tiles.map(({ trim }) => trim.top)),
        right: Math.max(...tiles.map(({ trim }) => trim.right)),
        bottom: Math.max(...tiles.map(({ trim }) => trim.bottom)),
      };
      // Blackened where tiles are to come.
      paste(laid, sheet.widthDots, Buffer.alloc(whole.length), inner);
      expect(laid.equals(whole)).toBe(false);
      for (const tile of tiles) {
        const page = tilePageOf(job, split.tiling, tile, paper, 'mm', '2025-11-25');
        const dots = await weaveTile(sheet, page, as, 600_000);
        paste(laid, sheet.widthDots, cut(dots, page.widthDots, page.trim), tile.trim);
      }
      expect(laid.equals(whole)).toBe(true);
      // Nearly all of the print: what falls away is less than a rib at each side.
      expect(sheet.widthDots - (inner.right - inner.left)).toBeLessThan(13);
      expect(sheet.heightDots - (inner.bottom - inner.top)).toBeLessThan(13);
    },
  );
});
