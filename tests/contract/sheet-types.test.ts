/**
 * The same woven dots as TIFF and as PDF, through the real pool, worker service, binder and memory
 * sink, read back by readers of others: libtiff through sharp, and pdf.js with zlib.
 */
import fc from 'fast-check';
import { VerbosityLevel, getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import { weaveRows } from '../../src/core/weave/band.ts';
import { columnMap, lenticulesOver } from '../../src/core/weave/column-map.ts';
import type { SheetSpec } from '../../src/core/weave/sheet-spec.ts';
import type { SheetFileType } from '../../src/core/encode/file-types.ts';
import { memorySink } from '../../src/files/sinks.ts';
import { newJob } from '../../src/job/schema/job.ts';
import { sheetFileName, sheetInfo } from '../../src/studio/weave/sheet-info.ts';
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

const ROWS = 24;
const SLOTS = [0, 1, 2];

const sheetOf = (ribs: SheetSpec['ribs']): SheetSpec => ({
  widthDots: 211,
  heightDots: 83,
  acrossDpi: 720,
  alongDpi: 360,
  ribs,
  viewingPitchMm: 0.42391,
  lensPitchMm: 0.42391,
  offsetMm: 0,
  viewSlots: SLOTS.length,
  columns: 'blended',
});

const scramble = (sheet: SheetSpec) => {
  const across = lenticulesOver(sheet).count;
  const [columns, rows] = sheet.ribs === 'upright' ? [across, ROWS] : [ROWS, across];
  return SLOTS.map((view) => {
    const pixels = new Uint16Array(columns * rows * 3);
    for (let i = 0; i < pixels.length; i += 1)
      pixels[i] = (Math.imul(i + 1, 2654435761) ^ Math.imul(view + 1, 40503)) >>> 16;
    return { columns, rows, pixels };
  });
};

/** Without workers, bands or a file. */
const wovenWhole = (sheet: SheetSpec) =>
  Buffer.from(
    weaveRows(
      sheet,
      columnMap(sheet),
      { slots: SLOTS, frames: scramble(sheet).map((frame) => ({ ...frame, firstRow: 0 })) },
      { firstRow: 0, rowCount: sheet.heightDots },
    ),
  );

const weaveAs = async (fileType: SheetFileType, sheet: SheetSpec, bandBytes: number) => {
  const upright = sheet.ribs === 'upright';
  const sink = memorySink('application/octet-stream');
  const outcome = await weaveSheet(
    {
      sheet,
      fileType,
      bandBytes,
      stack: {
        slots: SLOTS,
        frames: scramble(sheet).map(({ columns, rows, pixels }) => ({
          columns,
          rows,
          pixels: new Blob([pixels]),
        })),
      },
      info: {
        width: sheet.widthDots,
        height: sheet.heightDots,
        horizontalDpi: upright ? 720 : 360,
        verticalDpi: upright ? 360 : 720,
        title: 'Kingfisher card',
      },
    },
    sink,
    { signal: new AbortController().signal, report: () => undefined },
  );
  const file = Buffer.from(await (await sink.file()).arrayBuffer());
  expect(outcome).toEqual({ done: true, value: { byteLength: file.length } });
  return file;
};

describe.each(['upright', 'lying'] as const)('a sheet with %s ribs', (ribs) => {
  const sheet = sheetOf(ribs);
  const whole = wovenWhole(sheet);

  test('as TIFF: the woven dots and their density, whatever the bands', async () => {
    await fc.assert(
      fc.asyncProperty(fc.integer({ min: 1, max: 60_000 }), async (bandBytes) => {
        const file = await weaveAs('tiff', sheet, bandBytes);
        expect((await sharp(file).raw().toBuffer()).equals(whole)).toBe(true);
        expect((await sharp(file).metadata()).density).toBe(ribs === 'upright' ? 720 : 360);
      }),
      { numRuns: 8 },
    );
  });

  test('as TIFF, wider than a strip is good for: the woven dots, whatever the bands', async () => {
    const wide = { ...sheetOf(ribs), widthDots: 11_000 };
    const file = await weaveAs('tiff', wide, 1);
    expect(file.equals(await weaveAs('tiff', wide, 9_000_000))).toBe(true);
    expect((await sharp(file).raw().toBuffer()).equals(wovenWhole(wide))).toBe(true);
  });

  test('as PDF: the woven dots and their page, whatever the bands', async () => {
    await fc.assert(
      fc.asyncProperty(fc.integer({ min: 1, max: 60_000 }), async (bandBytes) => {
        const file = await weaveAs('pdf', sheet, bandBytes);
        expect(dotsOfPdf(file, sheet).equals(whole)).toBe(true);
        const document = await getDocument({
          data: new Uint8Array(file),
          stopAtErrors: true,
          verbosity: VerbosityLevel.ERRORS,
        }).promise;
        const [, , right, top] = (await document.getPage(1)).view;
        await document.destroy();
        // Dots over density, in 1/72 in.
        const [x, y] = ribs === 'upright' ? [720, 360] : [360, 720];
        expect(right).toBeCloseTo((211 / x) * 72, 4);
        expect(top).toBeCloseTo((83 / y) * 72, 4);
      }),
      { numRuns: 8 },
    );
  });
});

describe('a file type by name', () => {
  test('gives the file its extension, and the words inside name job, pitch, distance and ribs', () => {
    const job = { ...newJob(), name: 'Fog / lamp' };
    expect(sheetFileName(job, 'png')).toMatch(/^Fog lamp 59\.92\d lpi at 400 mm\.png$/);
    expect(sheetFileName({ ...job, name: 'கண்ணாடி வீடு\u202e' }, 'png')).toMatch(/^கண்ணாடி வீடு 59/);
    expect(sheetFileName(job, 'tiff')).toMatch(/ mm\.tif$/);
    expect(sheetFileName(job, 'pdf')).toMatch(/ mm\.pdf$/);
    const { title, description } = sheetInfo(job, new Date(0));
    expect(title).toBe('Fog / lamp');
    // docs/optics.md, relation 2: 60 / (1 + g₀ / 400), g₀ by trace 5.4 % below 0.84 / 1.5685.
    expect(description).toMatch(/59\.924\d LPI .*400 mm.*ribs upright/);
  });
});

describe('the sink in memory', () => {
  test('writes over what stands at a place, across pieces, and names the type', async () => {
    const sink = memorySink('image/tiff');
    for (const piece of [
      [1, 2, 3],
      [4, 5],
      [6, 7, 8],
    ])
      await sink.write(Uint8Array.from(piece));
    await sink.patch(2, Uint8Array.of(30, 40, 50, 60));
    await sink.close();
    const file = await sink.file();
    expect(file.type).toBe('image/tiff');
    expect([...new Uint8Array(await file.arrayBuffer())]).toEqual([1, 2, 30, 40, 50, 60, 7, 8]);
  });
});
