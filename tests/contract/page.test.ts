/**
 * The page around a woven sheet, through the real pool, worker service and binder, read back by sharp
 * (libvips) and pdf.js. What it must look like is put together here dot by dot.
 */
import fc from 'fast-check';
import { VerbosityLevel, getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import type { PageBox, PageSpec } from '../../src/core/sheet/page-spec.ts';
import { weaveRows } from '../../src/core/weave/band.ts';
import { columnMap, lenticulesOver } from '../../src/core/weave/column-map.ts';
import type { SheetSpec } from '../../src/core/weave/sheet-spec.ts';
import type { SheetFileType } from '../../src/core/encode/file-types.ts';
import { memorySink } from '../../src/files/sinks.ts';
import { weaveSheet } from '../../src/calls/weave.ts';
import { createWeaveService } from '../../workers/weave-service.ts';
import { InProcessWorker } from './in-process-worker.ts';

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

const DPI = 720;
const PITCH_MM = 0.42391;
const ROWS = 11;

const sheetOf = (ribs: SheetSpec['ribs']): SheetSpec => ({
  widthDots: 61,
  heightDots: 37,
  acrossDpi: DPI,
  alongDpi: 360,
  ribs,
  viewingPitchMm: PITCH_MM,
  lensPitchMm: PITCH_MM,
  offsetMm: 0,
  viewSlots: 2,
  columns: 'blended',
});

const framesOf = (sheet: SheetSpec) => {
  const across = lenticulesOver(sheet).count;
  const [columns, rows] = sheet.ribs === 'upright' ? [across, ROWS] : [ROWS, across];
  return [0, 1].map((view) => ({
    columns,
    rows,
    pixels: Uint16Array.from(
      { length: columns * rows * 3 },
      (_, i) => (Math.imul(i + 1, 2654435761) ^ Math.imul(view + 1, 40503)) >>> 16,
    ),
  }));
};

const wovenWhole = (sheet: SheetSpec) =>
  weaveRows(
    sheet,
    columnMap(sheet),
    { slots: [0, 1], frames: framesOf(sheet).map((frame) => ({ ...frame, firstRow: 0 })) },
    { firstRow: 0, rowCount: sheet.heightDots },
  );

const at = (left: number, top: number, width: number, height: number): PageBox => ({
  left,
  top,
  right: left + width,
  bottom: top + height,
});

/** A page with something on every side, one rail and one mark reaching over its edge. */
const pageOf = (left: number, top: number, sheet: SheetSpec): PageSpec => ({
  widthDots: 101,
  heightDots: 83,
  woven: at(left, top, sheet.widthDots, sheet.heightDots),
  trim: at(left + 4, top + 3, sheet.widthDots - 8, sheet.heightDots - 6),
  rails: [at(2, 5, 9, 60), at(90, 5, 14, 60), at(13, 70, 70, 6)],
  ink: [at(0, 0, 5, 2), at(97, 79, 12, 9), at(30, 78, 20, 1)],
});

const weaveAs = async (
  fileType: SheetFileType,
  sheet: SheetSpec,
  page: PageSpec | undefined,
  bandBytes: number,
) => {
  const upright = sheet.ribs === 'upright';
  const sink = memorySink('application/octet-stream');
  const { widthDots, heightDots } = page ?? sheet;
  await weaveSheet(
    {
      sheet,
      fileType,
      bandBytes,
      ...(page === undefined ? {} : { page }),
      stack: {
        slots: [0, 1],
        frames: framesOf(sheet).map((frame) => ({ ...frame, pixels: new Blob([frame.pixels]) })),
      },
      info: {
        width: widthDots,
        height: heightDots,
        horizontalDpi: upright ? DPI : 360,
        verticalDpi: upright ? 360 : DPI,
        ...(page === undefined ? {} : { trim: page.trim, bleed: page.woven }),
      },
    },
    sink,
    { signal: new AbortController().signal, report: () => undefined },
  );
  return Buffer.from(await (await sink.file()).arrayBuffer());
};

/** IEC 61966-2-1, written out. */
const encode = (light: number) =>
  Math.round(255 * (light <= 0.0031308 ? 12.92 * light : 1.055 * light ** (1 / 2.4) - 0.055));

/** Share of [from, to) that lies within a quarter pitch's line about any multiple of the pitch. */
const darkShare = (from: number, to: number) => {
  let dark = 0;
  for (let k = Math.floor(from / PITCH_MM) - 1; k <= Math.ceil(to / PITCH_MM) + 1; k += 1)
    dark += Math.max(
      0,
      Math.min(to, (k + 0.125) * PITCH_MM) - Math.max(from, (k - 0.125) * PITCH_MM),
    );
  return dark / (to - from);
};

/** Dot by dot: paper, picture, rails, ink, each over the one before. */
const composed = (sheet: SheetSpec, page: PageSpec): Uint8Array => {
  const woven = wovenWhole(sheet);
  const out = new Uint8Array(page.widthDots * page.heightDots * 3);
  const inside = (box: PageBox, x: number, y: number) =>
    x >= box.left && x < box.right && y >= box.top && y < box.bottom;
  const dotMm = 25.4 / DPI;
  for (let y = 0; y < page.heightDots; y += 1)
    for (let x = 0; x < page.widthDots; x += 1) {
      const to = (y * page.widthDots + x) * 3;
      let rgb: readonly number[] = [255, 255, 255];
      if (inside(page.woven, x, y)) {
        const from = ((y - page.woven.top) * sheet.widthDots + x - page.woven.left) * 3;
        rgb = [...woven.subarray(from, from + 3)];
      }
      if (page.rails.some((box) => inside(box, x, y))) {
        const { left, right, top, bottom } = page.woven;
        const dot = sheet.ribs === 'upright' ? x - (left + right) / 2 : y - (top + bottom) / 2;
        const grey = encode(1 - darkShare(dot * dotMm, (dot + 1) * dotMm));
        rgb = [grey, grey, grey];
      }
      if (page.ink.some((box) => inside(box, x, y))) rgb = [0, 0, 0];
      out.set(rgb, to);
    }
  return out;
};

describe.each(['upright', 'lying'] as const)('a page round a sheet with %s ribs', (ribs) => {
  const sheet = sheetOf(ribs);

  test('is paper, picture, rails and ink, whatever the bands and wherever the print lies', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.integer({ min: -20, max: 60 }),
        fc.integer({ min: -20, max: 60 }),
        fc.integer({ min: 900, max: 30000 }),
        async (left, top, bandBytes) => {
          const page = pageOf(left, top, sheet);
          const { data, info } = await sharp(await weaveAs('png', sheet, page, bandBytes))
            .raw()
            .toBuffer({ resolveWithObject: true });
          expect([info.width, info.height]).toEqual([page.widthDots, page.heightDots]);
          expect(Buffer.compare(data, composed(sheet, page))).toBe(0);
        },
      ),
      { numRuns: 10, seed: 20251125 },
    );
  });

  test('gives the sheet without a page where nothing is around it, byte for byte', async () => {
    const bare: PageSpec = {
      widthDots: sheet.widthDots,
      heightDots: sheet.heightDots,
      woven: at(0, 0, sheet.widthDots, sheet.heightDots),
      trim: at(0, 0, sheet.widthDots, sheet.heightDots),
      rails: [],
      ink: [],
    };
    const withPage = await weaveAs('png', sheet, bare, 2000);
    expect(withPage.equals(await weaveAs('png', sheet, undefined, 2000))).toBe(true);
  });

  test('has its boxes in a PDF: media the page, trim and bleed inside it', async () => {
    const page = pageOf(18, 20, sheet);
    const bytes = await weaveAs('pdf', sheet, page, 5000);
    const [xDpi, yDpi] = ribs === 'upright' ? [DPI, 360] : [360, DPI];
    const points = ({ left, top, right, bottom }: PageBox) => [
      (left * 72) / xDpi,
      ((83 - bottom) * 72) / yDpi,
      (right * 72) / xDpi,
      ((83 - top) * 72) / yDpi,
    ];
    const text = bytes.toString('latin1');
    const box = (name: string) =>
      new RegExp(`/${name} ?\\[([^\\]]*)\\]`).exec(text)?.[1]?.trim().split(' ').map(Number) ?? [];
    const near = (found: number[], wanted: number[]) => {
      expect(found).toHaveLength(4);
      found.forEach((side, i) => expect(side).toBeCloseTo(wanted[i] as number, 4));
    };
    near(box('TrimBox'), points(page.trim));
    near(box('BleedBox'), points(page.woven));
    const pdf = await getDocument({ data: new Uint8Array(bytes), verbosity: VerbosityLevel.ERRORS })
      .promise;
    near((await pdf.getPage(1)).view, points(at(0, 0, 101, 83)));
    await pdf.destroy();
  });
});
