/** A PDF of many pages: pages and sizes through pdf.js, each picture taken out and read as PNG reads it. */
import { describe, expect, test } from 'vitest';
import { openPdfOfPages, pdfWriter } from '../../../src/core/encode/pdf.ts';
import { info, objectOf, openWithPdfjs, pictureOf } from './pdf-file.ts';
import { scrambled } from './sheet-file.ts';

const sheets = [
  info(30, 21),
  info(7, 40, { trim: { left: 1, top: 2, right: 6, bottom: 30 } }),
  info(25, 9),
];

const written = (() => {
  const pdf = openPdfOfPages(
    sheets.map((sheet) => ({ info: sheet })),
    info(1, 1, { title: 'A wall of tiles' }),
  );
  const parts: Uint8Array[] = [pdf.head()];
  for (const [page, { width, height }] of sheets.entries()) {
    if (page > 0) parts.push(pdf.next());
    const rows = scrambled(width, height, page + 1);
    const half = Math.ceil(height / 2) * width * 3;
    const bands = [rows.subarray(0, half), rows.subarray(half)];
    for (const [number, band] of bands.entries()) {
      const above = number === 0 ? null : rows.subarray(half - width * 3, half);
      const segment = pdfWriter.wrapBand({
        rows: band,
        rowBytes: width * 3,
        above,
        ribs: 'upright',
      });
      pdf.took({ ...segment, byteLength: segment.bytes.length });
      parts.push(segment.bytes);
    }
  }
  parts.push(pdf.tail().bytes);
  return Buffer.concat(parts);
})();

describe('a PDF of three tiles', () => {
  test('pdf.js finds three pages, each of its own size', async () => {
    const { document } = await openWithPdfjs(written);
    expect(document.numPages).toBe(3);
    for (const [at, { width, height }] of sheets.entries()) {
      const { view } = await document.getPage(at + 1);
      // 72 units to the inch (ISO 32000-1, 8.3.2.3), 720 × 360 dots to the inch.
      expect(view[2]).toBeCloseTo((width * 72) / 720, 5);
      expect(view[3]).toBeCloseTo((height * 72) / 360, 5);
    }
    const { info: about } = await document.getMetadata();
    expect((about as { Title: string }).Title).toBe('A wall of tiles');
  });

  test('each page shows its own picture, bit for bit', async () => {
    const { document } = await openWithPdfjs(written);
    for (const [at, sheet] of sheets.entries()) {
      const page = await document.getPage(at + 1);
      // The page's own words, by the number that pdf.js found it under.
      const { dictionary } = objectOf(written, page.ref?.num ?? 0);
      const picture = Number(/\/Sheet (\d+) 0 R/.exec(dictionary)?.[1]);
      const dots = pictureOf(written, sheet, picture);
      expect(dots.equals(Buffer.from(scrambled(sheet.width, sheet.height, at + 1)))).toBe(true);
    }
  });

  test('the places in the cross-references are where the objects begin', () => {
    const text = written.toString('latin1');
    const at = Number(/startxref\n(\d+)\n/.exec(text)?.[1]);
    const entries = [...text.slice(at).matchAll(/^(\d{10}) 00000 n/gm)];
    expect(entries).toHaveLength(4 * sheets.length + 5);
    for (const [number, [, place]] of entries.entries())
      expect(text.slice(Number(place)).startsWith(`${number + 1} 0 obj\n`)).toBe(true);
  });
});
