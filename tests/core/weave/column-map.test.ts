import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { columnMap, lenticulesOver } from '../../../src/core/weave/column-map.ts';
import type { SheetSpec } from '../../../src/core/weave/sheet-spec.ts';

const sheetOf = (change: Partial<SheetSpec> = {}): SheetSpec => ({
  widthDots: 600,
  heightDots: 10,
  acrossDpi: 720,
  alongDpi: 720,
  ribs: 'upright',
  viewingPitchMm: 0.4239,
  lensPitchMm: 0.4234,
  offsetMm: 0,
  viewSlots: 12,
  columns: 'blended',
  ...change,
});

const anySheet = fc
  .record({
    widthDots: fc.integer({ min: 1, max: 700 }),
    acrossDpi: fc.integer({ min: 100, max: 2880 }),
    viewingPitchMm: fc.double({ min: 0.1, max: 2, noNaN: true }),
    offsetMm: fc.double({ min: -3, max: 3, noNaN: true }),
    viewSlots: fc.integer({ min: 1, max: 60 }),
  })
  .map(sheetOf);

const entriesOf = (map: ReturnType<typeof columnMap>, dot: number) =>
  Array.from({ length: (map.start[dot + 1] ?? 0) - (map.start[dot] ?? 0) }, (_, i) => {
    const e = (map.start[dot] ?? 0) + i;
    return {
      rib: (map.lenticule[e] ?? NaN) + map.firstLenticule,
      slot: map.slot[e] ?? NaN,
      weight: map.weight[e] ?? NaN,
    };
  });

describe('the column map', () => {
  test('every dot’s shares sum to one, and no share is nothing', () => {
    fc.assert(
      fc.property(anySheet, (sheet) => {
        const map = columnMap(sheet);
        for (let dot = 0; dot < map.dots; dot += 1) {
          const entries = entriesOf(map, dot);
          const whole = entries.reduce((sum, { weight }) => sum + weight, 0);
          const sound = entries.every(
            ({ weight, slot, rib }) =>
              weight > 0 && slot < sheet.viewSlots && rib - map.firstLenticule < map.lenticules,
          );
          // One assertion a dot: there are tens of thousands of them.
          if (!sound || Math.abs(whole - 1) > 1e-12) expect.fail(JSON.stringify({ dot, entries }));
        }
      }),
      { numRuns: 60 },
    );
  });

  test('agrees with exact overlaps in whole-number arithmetic', () => {
    // Pitch and dot as whole numbers of a common unit, so that every edge is an exact fraction: with
    // dots of `a` units and a pitch of `b`, dot j reaches from (2j − W) a / 2 to (2j + 2 − W) a / 2.
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 60 }),
        fc.integer({ min: 20, max: 400 }),
        fc.integer({ min: 1, max: 12 }),
        fc.integer({ min: 1, max: 40 }),
        (a, b, viewSlots, widthDots) => {
          const acrossDpi = 25.4 / (a * 0.001);
          const sheet = sheetOf({ acrossDpi, viewingPitchMm: b * 0.001, viewSlots, widthDots });
          const map = columnMap(sheet);
          const [A, B, N, W] = [a, b, viewSlots, widthDots].map(BigInt) as [
            bigint,
            bigint,
            bigint,
            bigint,
          ];
          for (let dot = 0; dot < widthDots; dot += 1) {
            // In units of 1 / (2 N): cell c reaches from c·2B to (c + 1)·2B, counted from −B N.
            const left = (2n * BigInt(dot) - W) * A * N + B * N;
            const right = left + 2n * A * N;
            const exact = new Map<string, number>();
            const cellWidth = 2n * B;
            const firstCell =
              left >= 0n ? left / cellWidth : -((-left + cellWidth - 1n) / cellWidth);
            for (let cell = firstCell; cell * cellWidth < right; cell += 1n) {
              const from = cell * cellWidth > left ? cell * cellWidth : left;
              const to = (cell + 1n) * cellWidth < right ? (cell + 1n) * cellWidth : right;
              if (to <= from) continue;
              const rib = cell >= 0n ? cell / N : -((-cell + N - 1n) / N);
              const slot = N - 1n - (cell - rib * N);
              exact.set(`${rib} ${slot}`, Number(to - from) / Number(right - left));
            }
            for (const { rib, slot, weight } of entriesOf(map, dot)) {
              const wanted = exact.get(`${rib} ${slot}`) ?? 0;
              expect(weight).toBeCloseTo(wanted, 8);
              exact.delete(`${rib} ${slot}`);
            }
            for (const missed of exact.values()) expect(missed).toBeCloseTo(0, 8);
          }
        },
      ),
      { numRuns: 80 },
    );
  });

  test('all dots together give each whole cell its width, no more and no less', () => {
    const sheet = sheetOf({ widthDots: 3000 });
    const map = columnMap(sheet);
    const sums = new Map<string, number>();
    for (let dot = 0; dot < map.dots; dot += 1)
      for (const { rib, slot, weight } of entriesOf(map, dot))
        sums.set(`${rib} ${slot}`, (sums.get(`${rib} ${slot}`) ?? 0) + weight);
    const cellInDots = (0.4239 / 12) * (720 / 25.4);
    const { first, count } = lenticulesOver(sheet);
    for (let rib = first + 1; rib < first + count - 1; rib += 1)
      for (let slot = 0; slot < 12; slot += 1)
        expect(sums.get(`${rib} ${slot}`)).toBeCloseTo(cellInDots, 9);
  });

  test('the pitch is never rounded: lenticule 1000 begins where arithmetic puts it', () => {
    const pitch = 0.42391;
    const sheet = sheetOf({ widthDots: 40_000, viewingPitchMm: pitch, viewSlots: 2 });
    const map = columnMap(sheet);
    // Its left edge, in dots from the sheet's left, by hand.
    const edge = 20_000 + ((1000 - 0.5) * pitch * 720) / 25.4;
    const dot = Math.floor(edge);
    const before = entriesOf(map, dot).find(({ rib }) => rib === 999);
    const after = entriesOf(map, dot).find(({ rib }) => rib === 1000);
    expect(before?.weight).toBeCloseTo(edge - dot, 8);
    expect(after?.weight).toBeCloseTo(1 - (edge - dot), 8);
  });

  test('one lenticule is centred on the print, and the offset carries it along', () => {
    const slotsAround = (offsetMm: number, at: number) => {
      const sheet = sheetOf({ widthDots: 1201, viewSlots: 5, columns: 'crisp', offsetMm });
      return entriesOf(columnMap(sheet), Math.round(600 + (at * 720) / 25.4));
    };
    // The middle dot of an odd sheet looks at the middle view under rib 0.
    expect(slotsAround(0, 0)).toEqual([{ rib: 0, slot: 2, weight: 1 }]);
    expect(slotsAround(2.54, 2.54)).toEqual([{ rib: 0, slot: 2, weight: 1 }]);
  });

  test('crisp gives a dot to the cell at its middle', () => {
    fc.assert(
      fc.property(anySheet, (sheet) => {
        const map = columnMap({ ...sheet, columns: 'crisp' });
        for (let dot = 0; dot < map.dots; dot += 1) {
          const x = ((dot + 0.5 - map.dots / 2) * 25.4) / sheet.acrossDpi - sheet.offsetMm;
          const place = x / sheet.viewingPitchMm + 0.5;
          const u = place - Math.floor(place);
          const v = (1 - u) * sheet.viewSlots; // relation 3
          if (Math.abs(v - Math.round(v)) < 1e-6) continue;
          expect(entriesOf(map, dot)).toEqual([
            { rib: Math.floor(place), slot: Math.floor(v), weight: 1 },
          ]);
        }
      }),
      { numRuns: 40 },
    );
  });

  test('under a rib the views run backwards: left to right is last to first (relation 3)', () => {
    const map = columnMap(sheetOf({ widthDots: 12, viewingPitchMm: (12 * 25.4) / 720 }));
    const slots = Array.from({ length: 12 }, (_, dot) => entriesOf(map, dot)[0]?.slot);
    expect(slots).toEqual([11, 10, 9, 8, 7, 6, 5, 4, 3, 2, 1, 0]);
  });

  test.each([
    ['viewSlots', { viewSlots: 0 }],
    ['viewSlots', { viewSlots: 2.5 }],
    ['viewingPitchMm', { viewingPitchMm: NaN }],
    ['acrossDpi', { acrossDpi: -720 }],
    ['widthDots', { widthDots: 0 }],
    ['offsetMm', { offsetMm: Infinity }],
  ])('names %s when it cannot be', (field, change) => {
    expect(() => columnMap(sheetOf(change))).toThrow(new RegExp(`^${field}`));
  });
});
