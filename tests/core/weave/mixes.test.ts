/** Mixed slots: the mean in linear light, dot by dot, against sums done here. */
import { describe, expect, test } from 'vitest';
import { linearToSrgb } from '../../../src/core/colour/srgb.ts';
import type { FrameSlice } from '../../../src/core/weave/band.ts';
import { weaveRows } from '../../../src/core/weave/band.ts';
import { columnMap, lenticulesOver } from '../../../src/core/weave/column-map.ts';
import { mixSlices } from '../../../src/core/weave/mix-slices.ts';
import type { SheetSpec } from '../../../src/core/weave/sheet-spec.ts';

const sheet: SheetSpec = {
  widthDots: 97,
  heightDots: 9,
  acrossDpi: 720,
  alongDpi: 360,
  ribs: 'upright',
  viewingPitchMm: 0.4239,
  lensPitchMm: 0.4239,
  offsetMm: 0,
  viewSlots: 4,
  columns: 'crisp',
};
const columns = lenticulesOver(sheet).count;

/** One row, so that nothing is interpolated along the ribs. */
const frame = (seed: number): FrameSlice => ({
  columns,
  rows: 1,
  firstRow: 0,
  pixels: Uint16Array.from(
    { length: columns * 3 },
    (_, i) => (Math.imul(i + seed, 2654435761) >>> 16) & 65535,
  ),
});
const frames = [frame(1), frame(5003), frame(90001)];

describe('a mixed slot', () => {
  test('is woven as the weighted mean in linear light of its frames, and a plain slot as its tone', () => {
    const mixes = [
      {
        parts: [
          { frame: 0, share: 0.5 },
          { frame: 1, share: 0.5 },
        ],
        light: 0,
      },
      {
        parts: [
          { frame: 2, share: 0.2 },
          { frame: 1, share: 0.8 },
        ],
        light: 0,
      },
      { parts: [], light: 14146 },
    ];
    const slots = [0, 3, 5, 4];
    const map = columnMap(sheet);
    const rows = { firstRow: 0, rowCount: sheet.heightDots };
    const woven = weaveRows(sheet, map, mixSlices(frames, mixes, slots), rows);
    const light = (index: number, at: number) => frames[index]?.pixels[at] as number;
    const wanted = [
      (at: number) => light(0, at),
      (at: number) => (light(0, at) + light(1, at)) / 2,
      () => 14146,
      (at: number) => 0.2 * light(2, at) + 0.8 * light(1, at),
    ];
    const seen = new Set<number>();
    for (let dot = 0; dot < sheet.widthDots; dot += 1) {
      const entry = map.start[dot] as number;
      const slot = map.slot[entry] as number;
      seen.add(slot);
      for (let c = 0; c < 3; c += 1) {
        const at = (map.lenticule[entry] as number) * 3 + c;
        const code = linearToSrgb((wanted[slot] as (at: number) => number)(at) / 65535) * 255;
        // Half a code for rounding, a little for 16-bit light in the dark.
        expect(Math.abs((woven[dot * 3 + c] as number) - code), `dot ${dot}`).toBeLessThan(0.56);
        // Linear 0.215861 is code 128 (IEC 61966-2-1), and 0.215861 × 65535 is 14146.
        if (slot === 2) expect(woven[dot * 3 + c]).toBe(128);
      }
    }
    expect([...seen].sort()).toEqual([0, 1, 2, 3]);
  });

  test('half black and half white is half the light, code 188, and not the mean of the codes', () => {
    const even = (value: number): FrameSlice => ({
      columns,
      rows: 1,
      firstRow: 0,
      pixels: new Uint16Array(columns * 3).fill(value),
    });
    const mix = {
      parts: [
        { frame: 0, share: 0.5 },
        { frame: 1, share: 0.5 },
      ],
      light: 0,
    };
    const stack = mixSlices([even(0), even(65535)], [mix], [2, 2, 2, 2]);
    const rows = { firstRow: 0, rowCount: 1 };
    const woven = weaveRows(sheet, columnMap(sheet), stack, rows);
    // IEC 61966-2-1: linear 0.5 encodes to 0.735357, code 187.52.
    expect(new Set(woven)).toEqual(new Set([188]));
  });

  test('frames that only serve a mix do not take part in the weave; numbers that mean nothing are named', () => {
    const mix = { parts: [{ frame: 1, share: 1 }], light: 0 };
    expect(mixSlices(frames, [mix], [0, 3]).frames).toHaveLength(2);
    expect(() => mixSlices(frames, [mix], [0, 4])).toThrow(/slots/);
    expect(() => mixSlices(frames, [{ parts: [{ frame: 7, share: 1 }], light: 0 }], [3])).toThrow(
      /mixes/,
    );
  });
});
