/** Pieces out of a sheet, against laying them one by one. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { layOut } from '../../../src/core/plan/money.ts';
import { mm } from '../../../src/core/units/units.ts';

const size = (widthMm: number, heightMm: number) => ({
  widthMm: mm(widthMm),
  heightMm: mm(heightMm),
});

describe('pieces out of a sheet', () => {
  test('A6 from A4 (ISO 216: 105 × 148 from 210 × 297): four without room between, else one', () => {
    const [a4, a6] = [size(210, 297), size(105, 148)];
    expect(layOut(a4, a6, mm(0))).toEqual({ across: 2, down: 2 });
    // 105 + 3 + 105 = 213 > 210, and 148 + 3 + 148 = 299 > 297.
    expect(layOut(a4, a6, mm(3))).toEqual({ across: 1, down: 1 });
  });

  test('a sheet of no size, or less once its margins are off, holds none', () => {
    const piece = size(10, 10);
    for (const sheet of [size(0, 100), size(100, 0), size(-20, -20), size(9.99, 100)])
      expect(layOut(sheet, piece, mm(3))).toEqual({ across: 0, down: 0 });
  });

  /** One by one, until the next would stand over the edge. In tenths of a millimetre: whole numbers. */
  const laid = (sheet: number, piece: number, gap: number) => {
    let count = 0;
    for (let end = piece; end <= sheet; end += gap + piece) count += 1;
    return count;
  };
  const tenths = (least: number, most: number) => fc.integer({ min: least, max: most });

  test('as many as laying them one by one', () => {
    fc.assert(
      fc.property(
        fc.tuple(tenths(0, 9000), tenths(0, 9000)),
        fc.tuple(tenths(50, 4000), tenths(50, 4000)),
        tenths(0, 300),
        (sheet, piece, gap) => {
          const across = laid(sheet[0], piece[0], gap);
          const down = laid(sheet[1], piece[1], gap);
          const { across: a, down: d } = layOut(
            size(sheet[0] / 10, sheet[1] / 10),
            size(piece[0] / 10, piece[1] / 10),
            mm(gap / 10),
          );
          expect(a * d).toBe(across * down);
          if (a * d > 0) expect([a, d]).toEqual([across, down]);
        },
      ),
    );
  });
});
