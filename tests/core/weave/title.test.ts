/** A title over the slots: alpha composited in linear light, slid by its step. */
import { describe, expect, test } from 'vitest';
import type { FrameSlice } from '../../../src/core/weave/band.ts';
import { mixSlices } from '../../../src/core/weave/mix-slices.ts';
import type { SourceImage } from '../../../src/core/weave/reduce.ts';
import { reduceFrame } from '../../../src/core/weave/reduce.ts';
import { lenticulesOver } from '../../../src/core/weave/column-map.ts';
import type { SheetSpec } from '../../../src/core/weave/sheet-spec.ts';

const COLUMNS = 12;
const ROWS = 2;
const slice = (of: (column: number, row: number, channel: number) => number): FrameSlice => ({
  columns: COLUMNS,
  rows: ROWS,
  firstRow: 0,
  pixels: Uint16Array.from({ length: COLUMNS * ROWS * 3 }, (_, i) =>
    Math.round(of(Math.floor(i / 3) % COLUMNS, Math.floor(i / 3 / COLUMNS), i % 3)),
  ),
});

/** Coverage and light of the title, 0 … 1; nothing in the two outermost columns. */
const alpha = (column: number) => (column < 2 || column > 9 ? 0 : (column - 1) / 8);
const colour = (column: number, row: number, channel: number) =>
  ((column * 5 + row * 3 + channel * 7) % 11) / 10;
const under = (column: number, row: number, channel: number) =>
  ((column * 3 + row * 7 + channel * 2) % 13) / 12;

const FULL = 65535;
const frames = [
  slice((...at) => FULL * under(...at)),
  slice((x, y, c) => FULL * (alpha(x) * colour(x, y, c) + 1 - alpha(x))),
  slice((x, y, c) => FULL * alpha(x) * colour(x, y, c)),
];
const laidOver = (shift: number, parts = [{ frame: 0, share: 1 }], light = 0) =>
  mixSlices(frames, [{ parts, light, over: { onWhite: 1, onBlack: 2, shift } }], [3]).frames[0]
    ?.pixels as Uint16Array;

describe('a title over a slot', () => {
  test.each([0, 2, -2, 0.5, -1.25])(
    'slid by %d lenticules is alpha C + (1 − alpha) X in linear light',
    (shift) => {
      const pixels = laidOver(shift);
      for (let row = 0; row < ROWS; row += 1)
        for (let column = 0; column < COLUMNS; column += 1)
          for (let c = 0; c < 3; c += 1) {
            // Coverage and covered light are each read on the straight line between two samples.
            const from = column - shift;
            const left = Math.floor(from);
            const read = (value: (x: number) => number) =>
              value(left) * (1 - (from - left)) + value(left + 1) * (from - left);
            const a = read(alpha);
            const light = read((x) => alpha(x) * colour(x, row, c));
            const wanted = FULL * (light + (1 - a) * under(column, row, c));
            const found = pixels[(row * COLUMNS + column) * 3 + c] as number;
            expect(Math.abs(found - wanted), `column ${column}`).toBeLessThan(3);
          }
    },
  );

  test('where it is transparent the slot keeps its very bits, plain slots too', () => {
    const bare = slice(() => FULL);
    const none = slice(() => 0);
    const over = { onWhite: 1, onBlack: 2, shift: 0.3 };
    const shown = (parts: { frame: number; share: number }[], light: number) =>
      mixSlices([frames[0] as FrameSlice, bare, none], [{ parts, light, over }], [3]).frames[0]
        ?.pixels;
    expect(shown([{ frame: 0, share: 1 }], 0)).toEqual(frames[0]?.pixels);
    expect(new Set(shown([], 1234))).toEqual(new Set([1234]));
  });

  test('beside it there is nothing: over black no light, over white all of it', () => {
    const sheet: SheetSpec = {
      widthDots: 60,
      heightDots: 4,
      acrossDpi: 600,
      alongDpi: 600,
      ribs: 'upright',
      viewingPitchMm: 0.4,
      lensPitchMm: 0.4,
      offsetMm: 0,
      viewSlots: 5,
      columns: 'crisp',
    };
    const source: SourceImage = {
      widthPx: 10,
      heightPx: 4,
      channels: 3,
      encoding: 'srgb8',
      data: new Uint8Array(10 * 4 * 3).fill(255),
    };
    const area = { left: -10, top: 0, width: 30, height: 4 };
    const across = lenticulesOver(sheet).count;
    const row = (ground: 'white' | 'black') => [
      ...reduceFrame(source, sheet, area, { ground }).pixels.slice(0, across * 3),
    ];
    expect(new Set(row('white'))).toEqual(new Set([FULL]));
    const onBlack = row('black');
    expect(onBlack[0]).toBe(0);
    expect(onBlack.at(-1)).toBe(0);
    expect(Math.max(...onBlack)).toBe(FULL);
  });
});
