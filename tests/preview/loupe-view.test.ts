import { describe, expect, it } from 'vitest';
import { dotFacts, ribEdges, spanAround, windowIn } from '../../src/preview/loupe-view.ts';
import { columnMap } from '../../src/core/weave/column-map.ts';
import type { SheetSpec } from '../../src/core/weave/sheet-spec.ts';

/** 60.1 lenticules to the inch over 720 dots: 11.98 dots a rib. */
const sheet: SheetSpec = {
  widthDots: 720,
  heightDots: 900,
  acrossDpi: 720,
  alongDpi: 720,
  ribs: 'upright',
  viewingPitchMm: 25.4 / 60.1,
  lensPitchMm: 25.4 / 60.1,
  offsetMm: 0,
  viewSlots: 12,
  columns: 'blended',
};

describe('the loupe’s box', () => {
  it('has the middle of the dot looked at in its middle, at the sheet’s edges too', () => {
    for (const middle of [0, 0.4, 100.7, 719.99, 720]) {
      const { origin, size } = spanAround(middle, 720, 101);
      expect(origin + size / 2).toBe(Math.min(719, Math.floor(middle)) + 0.5);
    }
  });

  it('asks for the whole dots inside it, and for none beside the sheet', () => {
    const box = (middle: number) => spanAround(middle, 720, 100);
    const down = spanAround(450, 900, 50);
    expect(windowIn(sheet, box(360.5), down)).toEqual({
      left: 310,
      top: 425,
      width: 101,
      height: 51,
    });
    expect(windowIn(sheet, box(0), down)).toMatchObject({ left: 0, width: 51 });
    expect(windowIn(sheet, box(720), down)).toMatchObject({ left: 669, width: 51 });
    expect(windowIn(sheet, spanAround(360, 720, 5000), down)).toMatchObject({
      left: 0,
      width: 720,
    });
  });
});

describe('the ribs over the dots', () => {
  it('lie one woven pitch apart, half a pitch beside the middle of the print', () => {
    const edges = ribEdges(sheet, 300, 420);
    const pitch = 720 / 60.1;
    for (const edge of edges) {
      const ribs = (edge - 360) / pitch + 0.5;
      expect(Math.abs(ribs - Math.round(ribs))).toBeLessThan(1e-9);
    }
    expect(edges).toHaveLength(10);
  });
});

describe('what a dot shows', () => {
  it('is the column map’s say, counted from 1', () => {
    const map = columnMap(sheet);
    for (const dot of [0, 17, 360, 719]) {
      const facts = dotFacts(sheet, map, dot);
      expect(facts.shares.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 12);
      for (const { slot } of facts.shares) {
        // Relation 3: v = (1 − u) N, give or take the dot's own width of one cell.
        const apart = Math.abs(slot - 0.5 - (1 - facts.place) * 12);
        expect(Math.min(apart, 12 - apart)).toBeLessThan(1.01);
      }
    }
  });

  it('knows its lenticule: the middle one is 0', () => {
    const map = columnMap(sheet);
    expect(dotFacts(sheet, map, 360)).toMatchObject({ lenticule: 0 });
    expect(dotFacts(sheet, map, 360 + 12).lenticule).toBe(1);
    expect(dotFacts(sheet, map, 360 - 12).lenticule).toBe(-1);
    expect(dotFacts(sheet, map, 360).place).toBeCloseTo(0.5 + 0.5 / (720 / 60.1), 9);
  });
});
