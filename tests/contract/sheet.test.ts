/**
 * From prepared frames to a finished PNG through the real pool, worker service and binder, read back
 * by two independent decoders (libvips through sharp, and fast-png).
 */
import { decode } from 'fast-png';
import fc from 'fast-check';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import type { PreparedFrame } from '../../src/contract/frames.ts';
import type { Sink } from '../../src/contract/sink.ts';
import type { SheetSpec } from '../../src/core/weave/sheet-spec.ts';
import { columnMap, lenticulesOver } from '../../src/core/weave/column-map.ts';
import { weaveRows } from '../../src/core/weave/band.ts';
import type { SheetRequest } from '../../src/calls/weave.ts';
import { weaveSheet, weaveWindow } from '../../src/calls/weave.ts';
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

const ROWS = 24;

const sheetOf = (change: Partial<SheetSpec> = {}): SheetSpec => ({
  widthDots: 331,
  heightDots: 97,
  acrossDpi: 720,
  alongDpi: 360,
  ribs: 'upright',
  viewingPitchMm: 0.42391,
  lensPitchMm: 0.42391,
  offsetMm: 0,
  viewSlots: 5,
  columns: 'blended',
  ...change,
});

/** Frames of a repeatable scramble, so that any dot taken from a wrong place shows. */
const scramble = (sheet: SheetSpec) => {
  const across = lenticulesOver(sheet).count;
  const [columns, rows] = sheet.ribs === 'upright' ? [across, ROWS] : [ROWS, across];
  return Array.from({ length: sheet.viewSlots }, (_, view) => {
    const pixels = new Uint16Array(columns * rows * 3);
    for (let i = 0; i < pixels.length; i += 1)
      pixels[i] = (Math.imul(i + 1, 2654435761) ^ Math.imul(view + 1, 40503)) >>> 16;
    return { columns, rows, pixels };
  });
};

const requestOf = (sheet: SheetSpec, bandBytes?: number): SheetRequest => ({
  sheet,
  stack: {
    frames: scramble(sheet).map(({ columns, rows, pixels }): PreparedFrame => ({
      columns,
      rows,
      pixels: new Blob([pixels]),
    })),
    slots: [0, 1, 2, 3, 4],
  },
  fileType: 'png',
  info: {
    width: sheet.widthDots,
    height: sheet.heightDots,
    horizontalDpi: sheet.ribs === 'upright' ? sheet.acrossDpi : sheet.alongDpi,
    verticalDpi: sheet.ribs === 'upright' ? sheet.alongDpi : sheet.acrossDpi,
    title: 'Kingfisher card',
  },
  ...(bandBytes === undefined ? {} : { bandBytes }),
});

const collector = () => {
  const parts: Uint8Array[] = [];
  const ended: string[] = [];
  const sink: Sink = {
    write: async (bytes) => void parts.push(bytes),
    patch: async () => {
      throw new Error('a PNG needs no patch');
    },
    close: async () => void ended.push('closed'),
    abort: async () => void ended.push('aborted'),
  };
  return { sink, ended, parts, file: () => Buffer.concat(parts) };
};

const weaveToFile = async (request: SheetRequest) => {
  const { sink, ended, file } = collector();
  const rowsReported: number[] = [];
  const outcome = await weaveSheet(request, sink, {
    signal: new AbortController().signal,
    report: (rows) => rowsReported.push(rows),
  });
  return { outcome, ended, file: file(), rowsReported };
};

/** The same sheet in one piece, without workers, bands or a file. */
const wovenWhole = (sheet: SheetSpec) =>
  weaveRows(
    sheet,
    columnMap(sheet),
    {
      slots: [0, 1, 2, 3, 4],
      frames: scramble(sheet).map((frame) => ({ ...frame, firstRow: 0 })),
    },
    { firstRow: 0, rowCount: sheet.heightDots },
  );

describe.each(['upright', 'lying'] as const)('a sheet with %s ribs', (ribs) => {
  test('is a PNG that two decoders read alike, with its size and density', async () => {
    const sheet = sheetOf({ ribs });
    const { outcome, ended, file, rowsReported } = await weaveToFile(requestOf(sheet, 5000));
    expect(outcome).toEqual({ done: true, value: { byteLength: file.length } });
    expect(ended).toEqual(['closed']);
    expect(rowsReported.at(-1)).toBe(sheet.heightDots);
    expect(rowsReported).toEqual([...rowsReported].sort((a, b) => a - b));

    const whole = Buffer.from(wovenWhole(sheet));
    const vips = await sharp(file).raw().toBuffer({ resolveWithObject: true });
    expect(vips.info).toMatchObject({ width: 331, height: 97, channels: 3 });
    expect(vips.data.equals(whole)).toBe(true);
    const fast = decode(file, { checkCrc: true });
    expect(Buffer.from(fast.data as Uint8Array).equals(whole)).toBe(true);
    // 720 and 360 dpi are 28346 and 14173 a metre, to the nearest (W3C PNG 3rd ed., pHYs).
    const [x, y] = ribs === 'upright' ? [28346, 14173] : [14173, 28346];
    expect(fast.resolution).toMatchObject({ x, y, unit: 1 });
  });

  test('has the same dots whatever the bands', async () => {
    const sheet = sheetOf({ ribs });
    const whole = Buffer.from(wovenWhole(sheet));
    await fc.assert(
      fc.asyncProperty(fc.integer({ min: 1, max: 60_000 }), async (bandBytes) => {
        const { file } = await weaveToFile(requestOf(sheet, bandBytes));
        expect((await sharp(file).raw().toBuffer()).equals(whole)).toBe(true);
      }),
      { numRuns: 12 },
    );
  });

  test('shows the same dots in the loupe', async () => {
    const sheet = sheetOf({ ribs });
    const { stack } = requestOf(sheet);
    const at = { left: 40, top: 31, width: 50, height: 20 };
    const outcome = await weaveWindow({ sheet, stack, ...at });
    if (!outcome.done) throw new Error('stopped');
    const whole = await sharp(Buffer.from(wovenWhole(sheet)), {
      raw: { width: sheet.widthDots, height: sheet.heightDots, channels: 3 },
    })
      .extract(at)
      .ensureAlpha()
      .raw()
      .toBuffer();
    expect(Buffer.from(outcome.value.pixels).equals(whole)).toBe(true);
  });
});

describe('a weave that does not end well', () => {
  test('stopped: the sink is aborted, and that is an outcome', async () => {
    const { sink, ended } = collector();
    const halt = new AbortController();
    const outcome = await weaveSheet(requestOf(sheetOf(), 1000), sink, {
      signal: halt.signal,
      report: () => halt.abort(),
    });
    expect(outcome).toEqual({ done: false });
    expect(ended).toEqual(['aborted']);
  });

  test('disk full: the sink is aborted and the error passed on', async () => {
    const { sink, ended } = collector();
    let writes = 0;
    const full: Sink = {
      ...sink,
      write: async () => {
        writes += 1;
        if (writes === 4) throw new Error('no room');
      },
    };
    await expect(
      weaveSheet(requestOf(sheetOf(), 1000), full, {
        signal: new AbortController().signal,
        report: () => undefined,
      }),
    ).rejects.toThrow('no room');
    expect(ended).toEqual(['aborted']);
  });

  test('a frame that went missing names what to do', async () => {
    const { sink, ended } = collector();
    const request = requestOf(sheetOf());
    const gone = { slice: () => ({ arrayBuffer: () => Promise.reject(new Error('gone')) }) };
    await expect(
      createWeaveService().weaveBand({
        ...request,
        id: 'a',
        firstRow: 0,
        rowCount: 4,
        stack: { ...request.stack, frames: [{ columns: 2, rows: 2, pixels: gone as never }] },
      }),
    ).resolves.toMatchObject({ kind: 'failed', error: { code: 'file-gone' } });
    await sink.abort();
    expect(ended).toEqual(['aborted']);
  });
});
