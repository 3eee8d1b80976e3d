import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { linearToSrgb } from '../../../src/core/colour/srgb.ts';
import type { SliceStack } from '../../../src/core/weave/band.ts';
import { sourceRowsFor, weaveRows } from '../../../src/core/weave/band.ts';
import { columnMap, lenticulesOver } from '../../../src/core/weave/column-map.ts';
import type { SheetSpec } from '../../../src/core/weave/sheet-spec.ts';

const upright: SheetSpec = {
  widthDots: 83,
  heightDots: 57,
  acrossDpi: 720,
  alongDpi: 300,
  ribs: 'upright',
  viewingPitchMm: 0.2951,
  lensPitchMm: 0.2951,
  offsetMm: 0.03,
  viewSlots: 4,
  columns: 'blended',
};
/** The same print turned on its side: its rows are the upright one's columns. */
const lying: SheetSpec = { ...upright, ribs: 'lying', widthDots: 57, heightDots: 83 };

const ROWS = 17;
const LENTICULES = lenticulesOver(upright).count;
const SLOTS = [0, 1, 1, 2];

const light = (frame: number, across: number, along: number, channel: number) =>
  (Math.imul(frame * 7919 + across * 104729 + along * 1299709 + channel * 15485863, 2654435761) >>>
    16) &
  65535;

/** Whole frames for either way of the ribs, from the same light. */
const stackFor = (sheet: SheetSpec): SliceStack => {
  const [columns, rows] = sheet.ribs === 'upright' ? [LENTICULES, ROWS] : [ROWS, LENTICULES];
  return {
    slots: SLOTS,
    frames: [0, 1, 2].map((frame) => {
      const pixels = new Uint16Array(columns * rows * 3);
      for (let y = 0; y < rows; y += 1)
        for (let x = 0; x < columns; x += 1)
          for (let c = 0; c < 3; c += 1)
            pixels[(y * columns + x) * 3 + c] =
              sheet.ribs === 'upright' ? light(frame, x, y, c) : light(frame, y, x, c);
      return { columns, rows, firstRow: 0, pixels };
    }),
  };
};

const all = (sheet: SheetSpec) =>
  weaveRows(sheet, columnMap(sheet), stackFor(sheet), { firstRow: 0, rowCount: sheet.heightDots });

describe('weaving rows', () => {
  test('is the blend of frames across and the straight line between rows along, dot by dot', () => {
    const map = columnMap(upright);
    const woven = all(upright);
    for (let y = 0; y < upright.heightDots; y += 1) {
      // The middle of sheet row y among the frame's rows, held at the ends.
      const at = Math.min(ROWS - 1, Math.max(0, ((y + 0.5) * ROWS) / upright.heightDots - 0.5));
      const above = Math.min(ROWS - 2, Math.floor(at));
      for (let dot = 0; dot < upright.widthDots; dot += 1)
        for (let c = 0; c < 3; c += 1) {
          let sum = 0;
          for (let e = map.start[dot] as number; e < (map.start[dot + 1] as number); e += 1) {
            const frame = SLOTS[map.slot[e] as number] as number;
            const across = map.lenticule[e] as number;
            const upper = light(frame, across, above, c);
            const lower = light(frame, across, above + 1, c);
            sum += (map.weight[e] as number) * (upper + (lower - upper) * (at - above));
          }
          const wanted = linearToSrgb(sum / 65535) * 255;
          const found = woven[(y * upright.widthDots + dot) * 3 + c] as number;
          // Half a code for rounding, and what 16-bit light and 14-bit shares lose where codes are
          // closest together, in the dark: under a tenth of a code.
          expect(Math.abs(found - wanted), `dot ${dot}, row ${y}`).toBeLessThan(0.6);
        }
    }
  });

  test('lying ribs are upright ribs turned: rows for columns, dot for dot', () => {
    // Exactly: both ways blend across the ribs first, round to 16 bits, then interpolate along them.
    const standing = all(upright);
    const turned = all(lying);
    const back = new Uint8Array(standing.length);
    for (let y = 0; y < upright.heightDots; y += 1)
      for (let x = 0; x < upright.widthDots; x += 1)
        for (let c = 0; c < 3; c += 1)
          back[(y * upright.widthDots + x) * 3 + c] = turned[
            (x * lying.widthDots + y) * 3 + c
          ] as number;
    expect(back).toEqual(new Uint8Array(standing));
  });

  test.each([upright, lying])(
    'any cut into bands, from slices alone, gives the same dots',
    (sheet) => {
      const whole = all(sheet);
      const map = columnMap(sheet);
      const full = stackFor(sheet);
      const rowBytes = sheet.widthDots * 3;
      fc.assert(
        fc.property(
          fc.integer({ min: 0, max: sheet.heightDots - 1 }),
          fc.integer({ min: 1, max: sheet.heightDots }),
          (firstRow, wanted) => {
            const rows = { firstRow, rowCount: Math.min(wanted, sheet.heightDots - firstRow) };
            const frameRows = full.frames[0]?.rows ?? 0;
            const { first, count } = sourceRowsFor(sheet, map, frameRows, rows);
            const frames = full.frames.map((frame) => ({
              ...frame,
              firstRow: first,
              pixels: frame.pixels.slice(
                first * frame.columns * 3,
                (first + count) * frame.columns * 3,
              ),
            }));
            const band = weaveRows(sheet, map, { ...full, frames }, rows);
            const from = firstRow * rowBytes;
            expect(Buffer.from(band).equals(whole.subarray(from, from + band.length))).toBe(true);
          },
        ),
        { numRuns: 60 },
      );
    },
  );

  test('one row, one lenticule, one slot: the smallest sheet there is', () => {
    const tiny = { ...upright, widthDots: 1, heightDots: 1, viewSlots: 1, offsetMm: 0 };
    const frame = { columns: 1, rows: 1, firstRow: 0, pixels: Uint16Array.of(65535, 0, 14146) };
    const dots = weaveRows(
      tiny,
      columnMap(tiny),
      { slots: [0], frames: [frame] },
      { firstRow: 0, rowCount: 1 },
    );
    // Linear 0.215861 is code 128 (IEC 61966-2-1), and 0.215861 × 65535 is 14146.
    expect([...dots]).toEqual([255, 0, 128]);
  });

  test('names what does not fit', () => {
    const stack = stackFor(upright);
    const rows = { firstRow: 0, rowCount: 1 };
    const map = columnMap(upright);
    expect(() => weaveRows(upright, map, { ...stack, slots: [0] }, rows)).toThrow(/slots/);
    expect(() => weaveRows(upright, map, { ...stack, frames: [] }, rows)).toThrow(/frames/);
  });
});
