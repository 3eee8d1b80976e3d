/** Jobs side by side: each figure by an arithmetic of its own. */
import { expect, test } from 'vitest';
import type { Job } from '../../src/job/schema/job.ts';
import { newJob } from '../../src/job/schema/job.ts';
import { renderHoursOf } from '../../src/job/facts/render-hours.ts';
import { forecastOf, wovenSheetOf } from '../../src/materials/shop.ts';
import { shopCells, shopTable } from '../../src/materials/shop-table.ts';
import { addEntry, emptyShelves } from '../../src/materials/shelves.ts';
import { newLens } from '../../src/materials/use-in-job.ts';

const job = (change: Partial<Job> = {}): Job => ({
  ...newJob(),
  print: { widthMm: 254, heightMm: 127, viewingDistanceMm: 400 },
  ...change,
});
const lens = { ...newLens(emptyShelves(), 'l'), widthMm: 600, heightMm: 300, price: 24 };
const shelves = addEntry(emptyShelves(), 'lenses', lens);
const setting = { shelves, fileType: 'png' as const, here: [] };
const words = { units: 'mm' as const, mark: '€', fileType: 'png' as const };
const cell = (table: ReturnType<typeof shopTable>, label: string) =>
  table.rows.find(([first]) => first === label)?.[1];

test('10 × 5 in at 720 dpi are 7200 × 3600 dots', () => {
  expect(forecastOf(job(), setting).dots).toBe(7200 * 3600);
});

test('hours: frames × the timed hours × pixels over its pixels', () => {
  const timed = job({
    viewSlots: 10,
    rig: { frameHours: 0.5, timedWidthPx: 1000, timedHeightPx: 500, frameWidthPx: 2000 },
  });
  // 2000 × 1000 px are four times 1000 × 500.
  expect(renderHoursOf(timed)).toBeCloseTo(10 * 0.5 * 4, 9);
  expect(renderHoursOf(job())).toBeUndefined();
});

test('cost: four pieces of 254 × 127 mm come out of 600 × 300 mm, 24 / 4; what has no price is named', () => {
  const chosen = job({ stock: { lensId: 'l' } });
  const told = forecastOf(chosen, setting);
  expect(told.cost.known).toBeCloseTo(6, 9);
  const table = shopTable([told], words);
  expect(cell(table, 'Cost of a print')).toBe('6.00 € and more');
  expect(table.notes.join(' ')).toContain('no paper is chosen');
});

test('a woven sheet is told as it is, a forecast between two figures', () => {
  const sheet = wovenSheetOf(job(), { fileName: 'a sheet.png', byteLength: 30e6 }, 42);
  expect(sheet).toEqual({ fileType: 'png', dots: 7200 * 3600, bytes: 30e6, seconds: 42 });
  const woven = shopTable([forecastOf(job(), setting, sheet)], words);
  expect(cell(woven, 'File, PNG')).toBe('30 MB, woven');
  expect(cell(woven, 'Weave')).toBe('42 s, woven');
  expect(cell(shopTable([forecastOf(job(), setting)], words), 'File, PNG')).toMatch(
    /^[\d.]+ to [\d.]+ MB$/,
  );
});

test('a row for each job in plain figures, under as many headings', () => {
  const rows = shopCells(
    [forecastOf(job({ name: '=A1' }), setting), forecastOf(job(), setting)],
    words,
  );
  expect(rows).toHaveLength(3);
  for (const row of rows) expect(row).toHaveLength((rows[0] ?? []).length);
  expect(rows[1]?.slice(0, 6)).toEqual(['=A1', 254, 127, 60, 12, 7200 * 3600]);
});

test('what is not counted is told once for all, and by name where jobs differ', () => {
  const notes = (...jobs: Job[]) =>
    shopTable(
      jobs.map((one) => forecastOf(one, setting)),
      words,
    ).notes.filter((note) => note.startsWith('Not counted'));
  const [plain, chosen] = [job({ name: 'A' }), job({ name: 'B', stock: { lensId: 'l' } })];
  expect(notes(plain, plain)).toHaveLength(1);
  expect(notes(plain, plain)[0]).not.toContain('“A”');
  const wide = job({ name: 'W', print: { widthMm: 900, heightMm: 127, viewingDistanceMm: 400 } });
  const told = notes(chosen, { ...wide, stock: { lensId: 'l' } });
  expect(told).toHaveLength(2);
  expect(told[0]).toMatch(/^Not counted in the cost of “B”: /);
  expect(told[1]).toContain('“W”: the print does not fit on the lens sheet');
});
