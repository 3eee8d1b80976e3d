/**
 * Several prints on one lens sheet, through the real pool, worker service and binder, read back by sharp
 * (libvips): each print's dots are those of the print woven by itself, the rest is paper, lines and rails.
 */
import fc from 'fast-check';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import { gangGrid } from '../../src/core/sheet/gang/gang-grid.ts';
import { gangLayouts } from '../../src/core/sheet/gang/gang-layout.ts';
import type { GangPlan, GangSpec, PlacedSheet } from '../../src/core/sheet/gang/gang-spec.ts';
import { gangSpecOf } from '../../src/core/sheet/gang/gang-spec.ts';
import type { SheetFileType } from '../../src/core/encode/file-types.ts';
import { lenticulesOver } from '../../src/core/weave/column-map.ts';
import type { SheetSpec } from '../../src/core/weave/sheet-spec.ts';
import { memorySink } from '../../src/files/sinks.ts';
import { weaveGang, weaveSheet } from '../../src/calls/weave.ts';
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

const ACROSS_DPI = 360;
const ALONG_DPI = 180;
const PITCH_MM = 0.5081;
const VIEWING_MM = PITCH_MM * (1 + 0.5 / 300);
const ROWS = 9;

type Ribs = SheetSpec['ribs'];

/** A print of so many ribs and millimetres, woven one woven pitch a rib. */
const sheetOf = (ribs: Ribs, count: number, alongMm: number): SheetSpec => {
  const across = Math.round((count * VIEWING_MM * ACROSS_DPI) / 25.4);
  const along = Math.round((alongMm * ALONG_DPI) / 25.4);
  return {
    widthDots: ribs === 'upright' ? across : along,
    heightDots: ribs === 'upright' ? along : across,
    acrossDpi: ACROSS_DPI,
    alongDpi: ALONG_DPI,
    ribs,
    viewingPitchMm: VIEWING_MM,
    lensPitchMm: VIEWING_MM,
    offsetMm: 0,
    viewSlots: 2,
    columns: 'blended',
  };
};

interface Frame {
  readonly columns: number;
  readonly rows: number;
  readonly pixels: Uint16Array<ArrayBuffer>;
}

/** Frames of a repeatable scramble, so that any dot taken from a wrong place shows. */
const framesOf = (sheet: SheetSpec, salt: number): Frame[] => {
  const across = lenticulesOver(sheet).count;
  const [columns, rows] = sheet.ribs === 'upright' ? [across, ROWS] : [ROWS, across];
  return [0, 1].map((view) => ({
    columns,
    rows,
    pixels: Uint16Array.from(
      { length: columns * rows * 3 },
      (_, i) => (Math.imul(i + 1, 2654435761) ^ Math.imul(view + salt, 40503)) >>> 16,
    ),
  }));
};

/** The same frames for the slid sheet's ribs: what comes in at a side is its neighbour again. */
const framesForSlid = (frames: readonly Frame[], sheet: SheetSpec, slid: SheetSpec): Frame[] => {
  const from = lenticulesOver(sheet);
  const to = lenticulesOver(slid);
  const source = (rib: number) =>
    Math.min(from.count - 1, Math.max(0, rib + to.first - from.first));
  const upright = sheet.ribs === 'upright';
  return frames.map(({ columns, rows, pixels }) => {
    const [wide, high] = upright ? [to.count, rows] : [columns, to.count];
    const out = new Uint16Array(wide * high * 3);
    for (let y = 0; y < high; y += 1)
      for (let x = 0; x < wide; x += 1) {
        const at = upright ? y * columns + source(x) : source(y) * columns + x;
        out.set(pixels.subarray(at * 3, at * 3 + 3), (y * wide + x) * 3);
      }
    return { columns: wide, rows: high, pixels: out };
  });
};

const stackOf = (frames: readonly Frame[]) => ({
  slots: [0, 1],
  frames: frames.map((frame) => ({ ...frame, pixels: new Blob([frame.pixels]) })),
});

const call = { signal: new AbortController().signal, report: () => undefined };

const density = (ribs: Ribs) =>
  ribs === 'upright'
    ? { horizontalDpi: ACROSS_DPI, verticalDpi: ALONG_DPI }
    : { horizontalDpi: ALONG_DPI, verticalDpi: ACROSS_DPI };

/** A print by itself, its ribs beside the middle of its dots by as much as on the gang. */
const wovenAlone = async ({ sheet, slideMm }: PlacedSheet, frames: readonly Frame[]) => {
  const slid = { ...sheet, offsetMm: slideMm };
  const sink = memorySink('image/png');
  await weaveSheet(
    {
      sheet: slid,
      fileType: 'png',
      stack: stackOf(framesForSlid(frames, sheet, slid)),
      info: { width: sheet.widthDots, height: sheet.heightDots, ...density(sheet.ribs) },
    },
    sink,
    call,
  );
  return sharp(Buffer.from(await (await sink.file()).arrayBuffer()))
    .raw()
    .toBuffer();
};

const wovenGang = async (
  gang: GangSpec,
  frames: readonly (readonly Frame[])[],
  bandBytes: number,
  fileType: SheetFileType = 'png',
) => {
  const sink = memorySink('application/octet-stream');
  await weaveGang(
    {
      gang,
      stacks: frames.map(stackOf),
      fileType,
      bandBytes,
      info: {
        width: gang.page.widthDots,
        height: gang.page.heightDots,
        ...density(gang.whole.ribs),
        trim: gang.page.trim,
        bleed: gang.page.trim,
      },
    },
    sink,
    call,
  );
  return Buffer.from(await (await sink.file()).arrayBuffer());
};

/** Two jobs' prints on one sheet: three of the one, as many of the other as find room. */
const gangOf = (ribs: Ribs, paper?: GangPlan['paper']) => {
  const grid = gangGrid({ acrossMm: 90, alongMm: 70, edgeMm: 7, gapMm: 2, pitchMm: PITCH_MM });
  const sheets = [sheetOf(ribs, 31, 12), sheetOf(ribs, 41, 21.5)];
  const [layout] = gangLayouts(grid, [
    { id: 'a', ribs: 31, alongUm: 12000, copies: 'fill' },
    { id: 'b', ribs: 41, alongUm: 21500, copies: 3 },
  ]);
  if (layout === undefined) throw new Error('no layout');
  const plan: GangPlan = {
    grid,
    layout,
    prints: new Map([
      ['a', { sheet: sheets[0] as SheetSpec, stack: 0 }],
      ['b', { sheet: sheets[1] as SheetSpec, stack: 1 }],
    ]),
    ribs,
    acrossDpi: ACROSS_DPI,
    alongDpi: ALONG_DPI,
    viewingPitchMm: VIEWING_MM,
    rails: true,
    marks: true,
    barIn: 'mm',
    label: 'Kingfisher cards',
    ...(paper === undefined ? {} : { paper }),
  };
  return { grid, layout, gang: gangSpecOf(plan), frames: sheets.map((s, i) => framesOf(s, i * 7)) };
};

describe.each(['upright', 'lying'] as const)('a gang with %s ribs', (ribs) => {
  test('shows each print dot for dot as woven alone, its middle under the middle of a rib', async () => {
    const { grid, layout, gang, frames } = gangOf(ribs);
    expect(new Set(layout.places.map(({ id }) => id))).toEqual(new Set(['a', 'b']));
    const png = sharp(await wovenGang(gang, frames, 20_000));
    const [x, y] = ribs === 'upright' ? [90, 70] : [70, 90];
    const { horizontalDpi, verticalDpi } = density(ribs);
    expect(await png.metadata()).toMatchObject({
      width: Math.round((x * horizontalDpi) / 25.4),
      height: Math.round((y * verticalDpi) / 25.4),
    });
    for (const placed of gang.placed) {
      const { left, top, sheet, slideMm } = placed;
      const size = { width: sheet.widthDots, height: sheet.heightDots };
      const cut = await png
        .clone()
        .extract({ left, top, ...size })
        .raw()
        .toBuffer();
      const own = await wovenAlone(placed, frames[placed.stack] as Frame[]);
      expect(cut.equals(own)).toBe(true);
      // From the lens sheet's middle, in pitches of the lens.
      const first = ribs === 'upright' ? left : top;
      const [dots, all] =
        ribs === 'upright'
          ? [sheet.widthDots, gang.whole.widthDots]
          : [sheet.heightDots, gang.whole.heightDots];
      const middleMm = ((first + dots / 2 - all / 2) * 25.4) / ACROSS_DPI + slideMm;
      const pitches = middleMm / grid.pitchMm;
      expect(Math.abs(pitches - Math.round(pitches))).toBeLessThan(1e-6);
      expect(Math.abs(slideMm)).toBeLessThanOrEqual(25.4 / ACROSS_DPI / 2 + 1e-9);
    }
  });

  test('is the same whatever the bands, and on paper larger or smaller than the lens', async () => {
    const { gang, frames } = gangOf(ribs);
    const raw = async (of: GangSpec, bandBytes: number) =>
      sharp(await wovenGang(of, frames, bandBytes))
        .raw()
        .toBuffer({ resolveWithObject: true });
    const bare = await raw(gang, 1e7);
    await fc.assert(
      fc.asyncProperty(
        fc.integer({ min: 30_000, max: 200_000 }),
        fc.integer({ min: -9, max: 30 }),
        fc.integer({ min: -9, max: 30 }),
        async (bandBytes, leftMm, topMm) => {
          const paper = { widthMm: 110, heightMm: 100, leftMm, topMm };
          const laid = gangOf(ribs, paper).gang;
          const { data, info } = await raw(laid, bandBytes);
          const [dx, dy] = [laid.page.woven.left, laid.page.woven.top];
          let wrong = 0;
          for (let y = 0; y < info.height; y += 1)
            for (let x = 0; x < info.width; x += 1) {
              const [u, v] = [x - dx, y - dy];
              const inside = u >= 0 && v >= 0 && u < bare.info.width && v < bare.info.height;
              const wanted = inside ? bare.data[(v * bare.info.width + u) * 3] : 255;
              if (data[(y * info.width + x) * 3] !== wanted) wrong += 1;
            }
          expect(wrong).toBe(0);
        },
      ),
      { numRuns: 3, seed: 20261125 },
    );
  });

  test('leaves the gaps to paper and cut lines', async () => {
    const { gang, frames } = gangOf(ribs);
    const { data, info } = await sharp(await wovenGang(gang, frames, 1e6))
      .raw()
      .toBuffer({ resolveWithObject: true });
    const covered = new Uint8Array(info.width * info.height);
    const boxes = [
      ...gang.placed.map(({ left, top, sheet }) => ({
        ...{ left, top, right: left + sheet.widthDots, bottom: top + sheet.heightDots },
      })),
      ...gang.page.rails,
      ...gang.page.ink,
    ];
    for (const { left, top, right, bottom } of boxes)
      for (let y = top; y < bottom; y += 1)
        covered.fill(1, y * info.width + left, y * info.width + right);
    const rest = new Set<number>();
    covered.forEach((taken, at) => {
      if (taken === 0) rest.add(data[at * 3] as number);
    });
    expect([...rest].sort((a, b) => a - b)).toEqual([190, 255]);
    expect(gang.page.rails).toHaveLength(4);
  });

  test('is in a PDF one page whose trim is the lens sheet', async () => {
    const { gang, frames } = gangOf(ribs, { widthMm: 100, heightMm: 95, leftMm: 4, topMm: 3 });
    const text = (await wovenGang(gang, frames, 1e6, 'pdf')).toString('latin1');
    const box = (name: string) =>
      new RegExp(`/${name} ?\\[([^\\]]*)\\]`).exec(text)?.[1]?.trim().split(' ').map(Number) ?? [];
    const trim = box('TrimBox');
    const points = (lengthMm: number) => (lengthMm * 72) / 25.4;
    const [width, height] = ribs === 'upright' ? [90, 70] : [70, 90];
    // A dot of 180 to the inch is 0.4 of a point.
    expect(Math.abs((trim[2] as number) - (trim[0] as number) - points(width))).toBeLessThan(0.4);
    expect(Math.abs((trim[3] as number) - (trim[1] as number) - points(height))).toBeLessThan(0.4);
    expect(Math.abs((trim[0] as number) - points(4))).toBeLessThan(0.4);
    expect(Math.abs((box('MediaBox')[2] as number) - points(100))).toBeLessThan(0.4);
  });
});
