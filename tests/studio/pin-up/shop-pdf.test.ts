/** The comparison as a page, read back by pdf.js: one page, every word of it, none beyond the edge. */
import { VerbosityLevel, getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { expect, test } from 'vitest';
import { newJob } from '../../../src/job/schema/job.ts';
import { emptyShelves } from '../../../src/materials/shelves.ts';
import { forecastOf } from '../../../src/materials/shop.ts';
import { shopTable } from '../../../src/materials/shop-table.ts';
import { shopPdf } from '../../../src/studio/pin-up/shop-pdf.ts';

const read = async (bytes: Uint8Array) => {
  const data = new Uint8Array(bytes);
  const document = await getDocument({ data, verbosity: VerbosityLevel.ERRORS }).promise;
  const page = await document.getPage(1);
  const { items } = await page.getTextContent();
  const texts = items.flatMap((item) =>
    'str' in item && item.str.trim() !== ''
      ? [
          {
            text: item.str,
            x: item.transform[4] as number,
            y: item.transform[5] as number,
            width: item.width,
          },
        ]
      : [],
  );
  return { pages: document.numPages, view: page.view, texts };
};

const setting = { shelves: emptyShelves(), fileType: 'png' as const, here: [] };

test.each([1, 4])('%d jobs', async (count) => {
  const names = ['Old glasshouse', 'A long name that goes on and on for lines', 'Dive', 'Été 山'];
  const table = shopTable(
    names.slice(0, count).map((name) => forecastOf({ ...newJob(), name }, setting)),
    { units: 'mm', mark: '€', fileType: 'png' },
  );
  const { bytes, lost } = await shopPdf(table, 'mm', '2026-11-30');
  const { pages, view, texts } = await read(bytes);
  expect(pages).toBe(1);
  // A4 on its side, ISO 216.
  expect(view[2]).toBeCloseTo((297 * 72) / 25.4, 1);
  expect(view[3]).toBeCloseTo((210 * 72) / 25.4, 1);
  for (const { x, y, width, text } of texts) {
    expect(x, text).toBeGreaterThan(34);
    expect(x + width, text).toBeLessThan((view[2] ?? 0) - 34);
    expect(y, text).toBeGreaterThan(34);
  }
  const words = texts.map(({ text }) => text).join(' ');
  for (const [label] of table.rows)
    for (const word of (label ?? '').split(' ')) expect(words).toContain(word);
  for (const note of table.notes) for (const word of note.split(' ')) expect(words).toContain(word);
  expect(lost).toEqual(count === 4 ? ['山'] : []);
});
