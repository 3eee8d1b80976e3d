/**
 * A file that breaks off goes on after its last whole batch of bands: through the real pool, worker service, binder and
 * kept file, with the faults that a page, a disk and a person cause. Read back by libvips and pdf.js.
 */
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import { weaveSheet } from '../../src/calls/weave.ts';
import type { SheetFileType } from '../../src/core/encode/file-types.ts';
import type { SheetSpec } from '../../src/core/weave/sheet-spec.ts';
import { lenticulesOver } from '../../src/core/weave/column-map.ts';
import { openInBatches } from '../../src/files/kept-file.ts';
import type { KeptPlace } from '../../src/files/kept-file.ts';
import { memorySink } from '../../src/files/sinks.ts';
import { openMemoryShelf } from '../../src/files/shelves.ts';
import { besideKept } from '../../src/studio/weave/where.ts';
import { createWeaveService } from '../../workers/weave-service.ts';
import type { Random } from './fuzz/random.ts';
import { randomOf } from './fuzz/random.ts';
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
  // So that each band is a batch of its own.
  let now = 0;
  vi.stubGlobal('performance', { now: () => (now += 2000) });
});
afterAll(() => vi.unstubAllGlobals());

const FRAME_ROWS = 40;
const sheet: SheetSpec = {
  widthDots: 203,
  heightDots: 131,
  acrossDpi: 720,
  alongDpi: 360,
  ribs: 'upright',
  viewingPitchMm: 0.42391,
  lensPitchMm: 0.42391,
  offsetMm: 0,
  viewSlots: 2,
  columns: 'blended',
};
const BANDS = 33;

const frames = [1, 2].map((view) => {
  const columns = lenticulesOver(sheet).count;
  const pixels = new Uint16Array(columns * FRAME_ROWS * 3);
  for (let i = 0; i < pixels.length; i += 1)
    pixels[i] = (Math.imul(i + 7, 2654435761) ^ Math.imul(view, 40503)) >>> 16;
  return { columns, rows: FRAME_ROWS, pixels: new Blob([pixels]) };
});

const request = (fileType: SheetFileType) => ({
  sheet,
  fileType,
  // Four rows a band.
  bandBytes: sheet.widthDots * 3 * 4,
  stack: { slots: [0, 1], frames },
  info: {
    width: sheet.widthDots,
    height: sheet.heightDots,
    horizontalDpi: 720,
    verticalDpi: 360,
    title: 'Lighthouse card',
    writtenAt: new Date('2026-05-01T10:00:00Z'),
  },
});

const call = (
  signal = new AbortController().signal,
  report = (_rows: number): void => undefined,
) => ({
  signal,
  report,
});

const inOneGo = async (fileType: SheetFileType) => {
  const sink = memorySink('application/octet-stream');
  await weaveSheet(request(fileType), sink, call());
  return Buffer.from(await (await sink.file()).arrayBuffer());
};

/** A place whose write fails after some: `torn` leaves half of what was being written. */
const failing = (place: KeptPlace, after: number, how: 'refused' | 'torn'): KeptPlace => {
  let written = 0;
  return {
    get: (key) => place.get(key),
    put: async (key, content) => {
      written += 1;
      if (written <= after) return place.put(key, content);
      if (how === 'torn') await place.put(key, content.slice(0, Math.floor(content.size / 2)));
      throw new DOMException('the disk is gone', 'UnknownError');
    },
  };
};

/** Weaves until a fault at a random place. @returns how many bands are kept, and whether the file is whole */
const breakOff = async (fileType: SheetFileType, place: KeptPlace, { below }: Random) => {
  const fault = below(3);
  const at = below(BANDS);
  const halt = new AbortController();
  const stopAt = (rows: number) => {
    if (fault === 0 && rows >= at * 4) halt.abort();
  };
  const within = fault === 0 ? place : failing(place, at, fault === 1 ? 'refused' : 'torn');
  const before = await openInBatches(within, 'x/y');
  await weaveSheet(request(fileType), before, call(halt.signal, stopAt)).catch(() => undefined);
  const after = await openInBatches(place, 'x/y');
  return { kept: after.begun.length, whole: (await after.file()) !== undefined };
};

test('fifty faults at random places: each time it goes on, and the file is that of one go', async () => {
  const random = randomOf(20);
  const types = ['png', 'tiff', 'pdf'] as const;
  const expected = new Map<SheetFileType, Buffer>();
  for (const type of types) expected.set(type, await inOneGo(type));
  let struck = 0;
  let wentOnFrom = 0;
  for (let round = 0; round < 50; round += 1) {
    const fileType = types[round % 3] as SheetFileType;
    const shelf = openMemoryShelf();
    let kept = 0;
    // Broken off up to three times over.
    for (let times = random.below(3); times >= 0; times -= 1) {
      const broken = await breakOff(fileType, shelf, random);
      expect(broken.kept).toBeGreaterThanOrEqual(kept);
      kept = broken.kept;
      if (!broken.whole) struck += 1;
    }
    const last = await openInBatches(shelf, 'x/y');
    wentOnFrom += last.begun.length;
    const seen: number[] = [];
    const outcome = await weaveSheet(
      request(fileType),
      last,
      call(undefined, (rows) => seen.push(rows)),
    );
    const file = Buffer.from(await (await last.file())!.arrayBuffer());
    expect(outcome).toEqual({ done: true, value: { byteLength: file.length } });
    expect(file.equals(expected.get(fileType)!), `${fileType}, round ${round}`).toBe(true);
    expect(seen.at(-1)).toBe(sheet.heightDots);
    expect(seen).toEqual([...seen].sort((a, b) => a - b));
  }
  // A round in which no fault struck shows nothing.
  expect(struck).toBeGreaterThan(60);
  expect(wentOnFrom / 50).toBeGreaterThan(5);
}, 120_000);

describe('read back by others after it went on', () => {
  const goneOn = async (fileType: SheetFileType) => {
    const shelf = openMemoryShelf();
    const halt = new AbortController();
    await weaveSheet(
      request(fileType),
      await openInBatches(shelf, 'x/y'),
      call(halt.signal, (rows) => rows >= 60 && halt.abort()),
    );
    const kept = await openInBatches(shelf, 'x/y');
    expect(kept.begun.reduce((sum, { rows }) => sum + rows, 0)).toBeGreaterThanOrEqual(60);
    await weaveSheet(request(fileType), kept, call());
    return Buffer.from(await (await kept.file())!.arrayBuffer());
  };
  const dots = async (file: Buffer) => sharp(file).raw().toBuffer();

  test.each(['png', 'tiff'] as const)('%s', async (fileType) => {
    const [broken, whole] = [await goneOn(fileType), await inOneGo('png')];
    expect((await dots(broken)).equals(await dots(whole))).toBe(true);
  });

  test('pdf', async () => {
    const whole = await dots(await inOneGo('png'));
    expect(dotsOfPdf(await goneOn('pdf'), sheet).equals(whole)).toBe(true);
  });
});

test('a chosen file gets the bands that were kept, and then the rest', async () => {
  const shelf = openMemoryShelf();
  const halt = new AbortController();
  const kept = await openInBatches(shelf, 'image/png');
  const first = memorySink('image/png');
  await weaveSheet(
    request('png'),
    besideKept(first, kept),
    call(halt.signal, (rows) => rows >= 40 && halt.abort()),
  );
  expect((await first.file()).size, 'nothing half written').toBe(0);
  const again = await openInBatches(shelf, 'image/png');
  expect(again.begun.length).toBeGreaterThanOrEqual(10);
  const chosen = memorySink('image/png');
  await weaveSheet(request('png'), besideKept(chosen, again), call());
  const file = Buffer.from(await (await chosen.file()).arrayBuffer());
  expect(file.equals(await inOneGo('png'))).toBe(true);
});

test('a chosen file is woven although the private disk has no room', async () => {
  const full: KeptPlace = {
    get: async () => undefined,
    put: async () => {
      throw new DOMException('full', 'QuotaExceededError');
    },
  };
  const chosen = memorySink('image/png');
  await weaveSheet(request('png'), besideKept(chosen, await openInBatches(full, 'x/y')), call());
  const file = Buffer.from(await (await chosen.file()).arrayBuffer());
  expect(file.equals(await inOneGo('png'))).toBe(true);
});
