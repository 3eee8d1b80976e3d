/**
 * Sheets with ghost removal for a lamp, in bands through the real pool and worker service; and the two targets of
 * Calibrate in every file type, read back by readers of others (libpng and libtiff through sharp, zlib).
 */
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import { lampTables } from '../../src/core/colour/lamp.ts';
import type { LampTargetSpec } from '../../src/core/colour/lamp-target.ts';
import { lampTargetSize } from '../../src/core/colour/lamp-target.ts';
import type { SheetFileType } from '../../src/core/encode/file-types.ts';
import type { TargetSpec } from '../../src/core/pitch/targets.ts';
import { targetSource } from '../../src/core/pitch/targets.ts';
import { weaveRows } from '../../src/core/weave/band.ts';
import { columnMap, lenticulesOver } from '../../src/core/weave/column-map.ts';
import { trimSlices } from '../../src/core/weave/ghost.ts';
import type { WedgeSpec } from '../../src/core/weave/ghost-wedge.ts';
import { wedgeSize } from '../../src/core/weave/ghost-wedge-layout.ts';
import type { SheetSpec } from '../../src/core/weave/sheet-spec.ts';
import { memorySink } from '../../src/files/sinks.ts';
import { weaveStrip } from '../../src/calls/strip.ts';
import { weaveSheet, weaveWindow } from '../../src/calls/weave.ts';
import { createStripService } from '../../workers/strip-service.ts';
import { createWeaveService } from '../../workers/weave-service.ts';
import { InProcessWorker } from './in-process-worker.ts';
import { dotsOfPdf } from './pdf-dots.ts';

/** One worker that answers both pools: no name is in both services but `cancel`. */
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

const ROWS = 24;
const SLOTS = [0, 1, 2, 0, 1];
const trim = { leak: 0.3, reachSlots: 2, lift: 0.1 };
const lamp = { density: 1.6, warmth: -1 };
const call = { signal: new AbortController().signal, report: () => undefined };

const sheetOf = (ribs: SheetSpec['ribs']): SheetSpec => ({
  widthDots: 211,
  heightDots: 183,
  acrossDpi: 720,
  alongDpi: 360,
  ribs,
  viewingPitchMm: 0.42391,
  lensPitchMm: 0.42391,
  offsetMm: 0,
  viewSlots: SLOTS.length,
  columns: 'blended',
});

/** Frames of a repeatable scramble, so that any dot taken from a wrong place shows. */
const scramble = (sheet: SheetSpec) => {
  const across = lenticulesOver(sheet).count;
  const [columns, rows] = sheet.ribs === 'upright' ? [across, ROWS] : [ROWS, across];
  return [0, 1, 2].map((view) => {
    const pixels = new Uint16Array(columns * rows * 3);
    for (let i = 0; i < pixels.length; i += 1)
      pixels[i] = (Math.imul(i + 1, 2654435761) ^ Math.imul(view + 1, 40503)) >>> 16;
    return { columns, rows, pixels };
  });
};

const stackOf = (sheet: SheetSpec) => ({
  slots: SLOTS,
  frames: scramble(sheet).map(({ columns, rows, pixels }) => ({
    columns,
    rows,
    pixels: new Blob([pixels]),
  })),
  trim,
  lamp,
});

/** Without workers, bands or a file. */
const wovenWhole = (sheet: SheetSpec) => {
  const frames = scramble(sheet).map((frame) => ({ ...frame, firstRow: 0 }));
  const { stack } = trimSlices({ slots: SLOTS, frames }, sheet.ribs, trim);
  const rows = { firstRow: 0, rowCount: sheet.heightDots };
  const tone = lampTables(lamp);
  return Buffer.from(weaveRows(sheet, columnMap(sheet), { ...stack, tone }, rows));
};

describe.each(['upright', 'lying'] as const)(
  'a sheet with ghost removal for a lamp, ribs %s',
  (ribs) => {
    const sheet = sheetOf(ribs);
    const info = {
      width: sheet.widthDots,
      height: sheet.heightDots,
      horizontalDpi: 720,
      verticalDpi: 720,
    };

    test('has the same dots whatever the bands, and they are not those of an untrimmed one', async () => {
      const whole = wovenWhole(sheet);
      const file = async (bandBytes: number, stack = stackOf(sheet)) => {
        const sink = memorySink('image/png');
        await weaveSheet({ sheet, stack, fileType: 'png', info, bandBytes }, sink, call);
        const bytes = Buffer.from(await (await sink.file()).arrayBuffer());
        return sharp(bytes).raw().toBuffer();
      };
      // A row, a few, and all of them in a band.
      for (const bandBytes of [1500, 7000, 200_000])
        expect((await file(bandBytes)).equals(whole)).toBe(true);
      const { slots, frames } = stackOf(sheet);
      const plain = { slots, frames } as ReturnType<typeof stackOf>;
      expect((await file(40_000, plain)).equals(whole)).toBe(false);
    });

    test('shows the same dots in the loupe', async () => {
      const at = { left: 40, top: 91, width: 50, height: 20 };
      const outcome = await weaveWindow({ sheet, stack: stackOf(sheet), ...at });
      if (!outcome.done) throw new Error('stopped');
      const whole = wovenWhole(sheet);
      for (let y = 0; y < at.height; y += 1)
        for (let x = 0; x < at.width; x += 1)
          for (let c = 0; c < 3; c += 1)
            expect(outcome.value.pixels[(y * at.width + x) * 4 + c]).toBe(
              whole[((at.top + y) * sheet.widthDots + at.left + x) * 3 + c],
            );
    });
  },
);

const wedge = (ribs: SheetSpec['ribs']): WedgeSpec => ({
  kind: 'ghost-wedge',
  acrossDpi: 180,
  alongDpi: 90,
  ribs,
  viewingPitchMm: 0.8478,
  viewSlots: 6,
  columns: 'blended',
  reachSlots: 1,
  strongest: 0.3,
  patchDots: 300,
  readFromMm: 400,
});

const lampTarget = (ribs: SheetSpec['ribs']): LampTargetSpec => ({
  kind: 'lamp-target',
  acrossDpi: 90,
  alongDpi: 60,
  ribs,
  picture: { columns: 4, rows: 2, rgb: Array.from({ length: 24 }, (_, i) => i * 10) },
});

const targetFile = async (
  strip: TargetSpec,
  size: ReturnType<typeof wedgeSize>,
  fileType: SheetFileType,
) => {
  const sink = memorySink('application/octet-stream');
  const info = {
    width: size.widthDots,
    height: size.heightDots,
    horizontalDpi: strip.ribs === 'upright' ? strip.acrossDpi : strip.alongDpi,
    verticalDpi: strip.ribs === 'upright' ? strip.alongDpi : strip.acrossDpi,
    paperMm: { width: 210, height: 297 },
  };
  const outcome = await weaveStrip({ strip, fileType, info, bandBytes: 50_000 }, sink, call);
  expect(outcome.done).toBe(true);
  return Buffer.from(await (await sink.file()).arrayBuffer());
};

describe.each(['upright', 'lying'] as const)('the targets, ribs %s', (ribs) => {
  const targets = [
    { name: 'the ghost wedge', spec: wedge(ribs), size: wedgeSize(wedge(ribs)) },
    { name: 'the lamp target', spec: lampTarget(ribs), size: lampTargetSize(lampTarget(ribs)) },
  ];
  test.each(targets)('$name has the very dots in each type of file', async ({ spec, size }) => {
    const dots = Buffer.from(targetSource(spec)(0, size.heightDots));
    for (const fileType of ['png', 'tiff'] as const) {
      const file = await targetFile(spec, size, fileType);
      const { data, info } = await sharp(file).raw().toBuffer({ resolveWithObject: true });
      expect([info.width, info.height]).toEqual([size.widthDots, size.heightDots]);
      expect(data.equals(dots)).toBe(true);
    }
    const pdf = await targetFile(spec, size, 'pdf');
    expect(dotsOfPdf(pdf, size).equals(dots)).toBe(true);
  });
});

test('a target turned by a quarter is the same target', () => {
  const [upright, lying] = (['upright', 'lying'] as const).map((ribs) => {
    const size = wedgeSize(wedge(ribs));
    return { ...size, dots: targetSource(wedge(ribs))(0, size.heightDots) };
  });
  if (upright === undefined || lying === undefined) throw new Error('two targets');
  expect([lying.widthDots, lying.heightDots]).toEqual([upright.heightDots, upright.widthDots]);
  const { acrossDpi, alongDpi } = wedge('upright');
  // Within the first ten millimetres lies the arrow, which points to the file's top either way.
  const isArrow = (x: number, y: number) => x < acrossDpi / 2.54 && y < alongDpi / 2.54;
  let differ = 0;
  for (let x = 0; x < upright.widthDots; x += 7)
    for (let y = 0; y < upright.heightDots; y += 5) {
      const turned = lying.dots[(x * lying.widthDots + lying.widthDots - 1 - y) * 3];
      if (!isArrow(x, y) && turned !== upright.dots[(y * upright.widthDots + x) * 3]) differ += 1;
    }
  expect(differ).toBe(0);
});
