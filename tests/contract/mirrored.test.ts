/**
 * Files mirrored for film, through the real pool, worker services and binder: their dots are those of the plain file,
 * mirrored by sharp (libvips), and a PDF's boxes, read by pdf-lib, lie where the mirrored picture does.
 */
import { PDFDocument } from '@cantoo/pdf-lib';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import { weaveStrip } from '../../src/calls/strip.ts';
import { weaveGang, weaveSheet } from '../../src/calls/weave.ts';
import type { Sink } from '../../src/contract/sink.ts';
import type { FrameStack } from '../../src/contract/weave.ts';
import type { SheetFileType } from '../../src/core/encode/file-types.ts';
import type { SheetInfo } from '../../src/core/encode/row-writer.ts';
import { stripSize } from '../../src/core/pitch/strip-rows.ts';
import type { StripSpec } from '../../src/core/pitch/strip.ts';
import { lenticulesOver } from '../../src/core/weave/column-map.ts';
import type { SheetSpec } from '../../src/core/weave/sheet-spec.ts';
import { memorySink } from '../../src/files/sinks.ts';
import { gangToWeave, gangViewOf, membersLaid } from '../../src/job/facts/gang-view.ts';
import { setGang } from '../../src/job/facts/gang.ts';
import { pageToWeave, setPage } from '../../src/job/facts/page.ts';
import { sheetSpecOf } from '../../src/job/facts/sheet.ts';
import { setTiles, splitOf, tilePageOf, tilePaperOf } from '../../src/job/facts/tiles.ts';
import type { Job } from '../../src/job/schema/job.ts';
import { newJob } from '../../src/job/schema/job.ts';
import { sheetInfo } from '../../src/studio/weave/sheet-info.ts';
import { createStripService } from '../../workers/strip-service.ts';
import { createWeaveService } from '../../workers/weave-service.ts';
import { InProcessWorker } from './in-process-worker.ts';
import { dotsOfPdf } from './pdf-dots.ts';

beforeAll(() => {
  vi.stubGlobal(
    'Worker',
    class extends InProcessWorker {
      constructor() {
        super({ ...createStripService(), ...createWeaveService() });
      }
    },
  );
});
afterAll(() => vi.unstubAllGlobals());

const ROWS = 9;
const DAY = '2026-12-01';
const call = { signal: new AbortController().signal, report: () => undefined };
const bandBytes = 40_000;

/** Frames of a repeatable scramble, so that any dot taken from a wrong place shows. */
const stackOf = (sheet: SheetSpec): FrameStack => {
  const across = lenticulesOver(sheet).count;
  const [columns, rows] = sheet.ribs === 'upright' ? [across, ROWS] : [ROWS, across];
  return {
    slots: Array.from({ length: sheet.viewSlots }, (_, i) => i),
    frames: Array.from({ length: sheet.viewSlots }, (_, view) => ({
      columns,
      rows,
      pixels: new Blob([
        Uint16Array.from(
          { length: columns * rows * 3 },
          (_, i) => (Math.imul(i + 1, 2654435761) ^ Math.imul(view + 1, 40503)) >>> 16,
        ),
      ]),
    })),
  };
};

const jobWith = (ribs: Job['ribs']): Job => ({
  ...newJob(),
  ribs,
  viewSlots: 3,
  printer: { carriageDpi: 360, feedDpi: 180, fedFirst: 'top' },
  print: { widthMm: 21.3, heightMm: 27.7, viewingDistanceMm: 400 },
});

/** A way to lay the job out, and to weave it. */
interface Layout {
  readonly laid: (job: Job) => Job;
  readonly weave: (job: Job, fileType: SheetFileType, sink: Sink) => Promise<SheetInfo>;
}

const sheetWoven: Layout['weave'] = async (job, fileType, sink) => {
  const [sheet, page] = [sheetSpecOf(job), pageToWeave(job, 'mm', DAY)];
  const info = sheetInfo(job, new Date(DAY), page);
  const request = { sheet, stack: stackOf(sheet), ...(page && { page }) };
  await weaveSheet({ ...request, fileType, bandBytes, info }, sink, call);
  return info;
};

const layouts: Readonly<Record<string, Layout>> = {
  'a bare sheet': { laid: (job) => job, weave: sheetWoven },
  'a page': {
    // Off the middle, so that a box that is not mirrored shows.
    laid: (job) => setPage(job, { on: true, paper: 'a5', place: { leftMm: 30, topMm: 50 } }),
    weave: sheetWoven,
  },
  'a tile': {
    laid: (job) =>
      setTiles(job, { on: true, lensAcrossMm: 20, lensAlongMm: 30, cutOffMm: 3, overlapMm: 2 }),
    weave: async (job, fileType, sink) => {
      const split = splitOf(job);
      if (!split.ok) throw new Error(split.message);
      const { tiling } = split;
      const [tile] = tiling.tiles;
      if (tile === undefined) throw new Error('no tile');
      const { page: paper } = tilePaperOf(job, tiling);
      const page = tilePageOf(job, tiling, tile, paper, 'mm', DAY);
      const sheet = sheetSpecOf(job);
      const info = sheetInfo(job, new Date(DAY), page);
      await weaveSheet(
        { sheet, stack: stackOf(sheet), page, fileType, bandBytes, info },
        sink,
        call,
      );
      return info;
    },
  },
  'several prints': {
    laid: (job) => setGang(job, { on: true, lensAcrossMm: 80, lensAlongMm: 70 }),
    weave: async (job, fileType, sink) => {
      const view = gangViewOf(job);
      const gang = gangToWeave(job, view, 'mm', DAY);
      const stacks = membersLaid(view).map((member) => stackOf(sheetSpecOf(member.job)));
      const info = sheetInfo(job, new Date(DAY), gang.page);
      await weaveGang({ gang, stacks, fileType, bandBytes, info }, sink, call);
      return info;
    },
  },
};

const fileOf = async ({ weave }: Layout, job: Job, fileType: SheetFileType) => {
  const sink = memorySink('application/octet-stream');
  const { width, height } = await weave(job, fileType, sink);
  const file = Buffer.from(await (await sink.file()).arrayBuffer());
  const raw = { width, height, channels: 3 } as const;
  const dots =
    fileType === 'pdf'
      ? sharp(dotsOfPdf(file, { widthDots: width, heightDots: height }), { raw })
      : sharp(file).removeAlpha();
  return { file, dots, width };
};

describe.each(['upright', 'lying'] as const)('with %s ribs', (ribs) => {
  test.each(
    Object.keys(layouts).flatMap((name) =>
      (['png', 'tiff', 'pdf'] as const).map((fileType) => [name, fileType] as const),
    ),
  )('%s as %s is the plain one from right to left, dot for dot', async (name, fileType) => {
    const layout = layouts[name]!;
    const job = layout.laid(jobWith(ribs));
    const plain = await fileOf(layout, job, fileType);
    const mirrored = await fileOf(layout, setPage(job, { mirrored: true }), fileType);
    const [asWoven, flopped, found] = await Promise.all([
      plain.dots.clone().raw().toBuffer(),
      plain.dots.clone().flop().raw().toBuffer(),
      mirrored.dots.raw().toBuffer(),
    ]);
    expect(found.equals(flopped)).toBe(true);
    expect(found.equals(asWoven)).toBe(false);
  });

  test('the boxes of a PDF are mirrored with the picture', async () => {
    const layout = layouts['a page']!;
    const job = layout.laid(jobWith(ribs));
    const boxesOf = async (of: Job) => {
      const { file } = await fileOf(layout, of, 'pdf');
      const page = (await PDFDocument.load(file, { updateMetadata: false })).getPage(0);
      return { media: page.getMediaBox(), trim: page.getTrimBox(), bleed: page.getBleedBox() };
    };
    const plain = await boxesOf(job);
    const mirrored = await boxesOf(setPage(job, { mirrored: true }));
    expect(mirrored.media).toEqual(plain.media);
    for (const name of ['trim', 'bleed'] as const) {
      const { x, ...rest } = mirrored[name];
      const { x: before, width, y, height } = plain[name];
      expect(x).toBeCloseTo(plain.media.width - before - width, 4);
      expect(Math.abs(x - before)).toBeGreaterThan(50);
      expect(rest.y).toBeCloseTo(y, 4);
      expect([rest.width, rest.height].map(Math.round)).toEqual([width, height].map(Math.round));
    }
  });
});

test('a strip is mirrored alike', async () => {
  const strip: StripSpec = {
    ...{ acrossDpi: 360, alongDpi: 180, ribs: 'upright', bandsLpi: [59.8, 59.9, 60] },
    ...{ bandDots: 702, lensLpi: 60, readFromMm: 400, barsIn: 'mm' },
  };
  const { widthDots: width, heightDots: height } = stripSize(strip);
  const dotsOf = async (side: Pick<SheetInfo, 'mirrored'>) => {
    const sink = memorySink('image/png');
    const info = { width, height, horizontalDpi: 360, verticalDpi: 180, ...side };
    await weaveStrip({ strip, fileType: 'png', bandBytes, info }, sink, call);
    return sharp(Buffer.from(await (await sink.file()).arrayBuffer()));
  };
  const plain = await dotsOf({});
  const found = await (await dotsOf({ mirrored: true })).raw().toBuffer();
  expect(found.equals(await plain.clone().flop().raw().toBuffer())).toBe(true);
  expect(found.equals(await plain.raw().toBuffer())).toBe(false);
});
