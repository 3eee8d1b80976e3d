/**
 * PDF sheets: structure and page through pdf.js, the picture taken out byte for byte and given to PNG
 * readers, and the places in the cross-references looked up by hand.
 */
import fc from 'fast-check';
import { JSDOM } from 'jsdom';
import { OPS } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { describe, expect, test } from 'vitest';
import { mmToPoints, sheetPage, userUnit } from '../../../src/core/encode/pdf-page.ts';
import { openPdf, pdfWriter } from '../../../src/core/encode/pdf.ts';
import { pdfNumber, pdfText } from '../../../src/core/encode/pdf-syntax.ts';
import type { SheetInfo } from '../../../src/core/encode/row-writer.ts';
import { srgbProfile } from '../../../src/core/encode/srgb-profile.ts';
import { info, objectOf, openWithPdfjs, pdfOf, pictureOf } from './pdf-file.ts';
import { fileOf, scrambled } from './sheet-file.ts';

describe('PDF sheet', () => {
  test('any size, any bands, any ribs: the picture comes out bit for bit', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 40 }),
        fc.integer({ min: 1, max: 40 }),
        fc.integer({ min: 1, max: 45 }),
        fc.constantFrom('upright', 'lying'),
        (width, height, rowsInBand, ribs) => {
          const sheet = info(width, height);
          const pixels = scrambled(width, height, width * height);
          const file = fileOf(pdfWriter, pixels, { info: sheet, rowsInBand, ribs });
          expect(pictureOf(file, sheet).equals(Buffer.from(pixels))).toBe(true);
        },
      ),
      { numRuns: 40 },
    );
  });

  test('pdf.js finds one page of the sheet’s size, with the picture at its own dots over all of it', async () => {
    // ISO 216 A4, 210 × 297 mm, at 720 × 360 dpi, to whole dots.
    const [width, height] = [Math.round((210 / 25.4) * 720), Math.round((297 / 25.4) * 360)];
    const parts = openPdf({ info: info(width, height), rowsInBand: height });
    const segment = pdfWriter.wrapBand({
      rows: new Uint8Array(width * height * 3).fill(119),
      rowBytes: width * 3,
      above: null,
      ribs: 'upright',
    });
    const head = parts.head();
    parts.took({ ...segment, byteLength: segment.bytes.length });
    const file = Buffer.concat([head, segment.bytes, parts.tail().bytes]);
    const { document, page } = await openWithPdfjs(file);
    expect(document.numPages).toBe(1);
    const [left, bottom, right, top] = page.view as [number, number, number, number];
    expect([left, bottom, page.userUnit]).toEqual([0, 0, 1]);
    // ISO 32000-1 units, 1/72 in: A4 is 595.2756 × 841.8898. Within one dot.
    expect(Math.abs(right - 595.2756)).toBeLessThan(72 / 720);
    expect(Math.abs(top - 841.8898)).toBeLessThan(72 / 360);
    const { fnArray, argsArray } = await page.getOperatorList();
    const at = fnArray.indexOf(OPS.paintImageXObject);
    expect((argsArray[at] as unknown[]).slice(1)).toEqual([width, height]);
    const [a = NaN, b, c, d = NaN, e = NaN, f = NaN] = argsArray[
      fnArray.indexOf(OPS.transform)
    ] as number[];
    expect([b, c]).toEqual([0, 0]);
    // In dots: inside the page on every side, so that no renderer rounds outwards, by no more than
    // a hundredth of one.
    const gaps = [e, right - e - a].map((gap) => (gap * 720) / 72);
    gaps.push(...[f, top - f - d].map((gap) => (gap * 360) / 72));
    for (const gap of gaps) {
      expect(gap).toBeGreaterThan(0.0005);
      expect(gap).toBeLessThan(0.01);
    }
    await document.destroy();
  });

  test('says that nothing may resample, smooth or scale it, and what its colours are', () => {
    const { file } = pdfOf(info(30, 20));
    const picture = objectOf(file, 6).dictionary;
    // ISO 32000-1, 8.9.5 and 7.4.4.4: 15 is PNG's filters, chosen row by row.
    for (const entry of [
      '/Interpolate false',
      '/BitsPerComponent 8',
      '/ColorSpace [/ICCBased 5 0 R]',
      '/Filter /FlateDecode',
      '/DecodeParms << /Predictor 15 /Colors 3 /BitsPerComponent 8 /Columns 30 >>',
    ])
      expect(picture).toContain(entry);
    expect(objectOf(file, 5).bytes().equals(Buffer.from(srgbProfile()))).toBe(true);
    const catalog = objectOf(file, 1).dictionary;
    expect(catalog).toContain('/PrintScaling /None');
    expect(catalog).toMatch(
      /\/OutputIntents \[<<.*\/S \/GTS_PDFX .*\/DestOutputProfile 5 0 R >>\]/,
    );
    // It has not the printer's own profile that PDF/X-4 wants, and so must not call itself one.
    expect(file.includes('GTS_PDFXVersion')).toBe(false);
    const page = objectOf(file, 3).dictionary;
    for (const box of ['MediaBox', 'BleedBox', 'TrimBox'])
      expect(page).toContain(`/${box} [0 0 3 4]`);
    expect(page).not.toContain('UserUnit');
  });

  test('lies in the middle of its paper, at its own size, and no paper cuts it', async () => {
    const a4 = { width: 210, height: 297 };
    const { file, pixels } = pdfOf(info(720, 360, { paperMm: a4 }), 90);
    const { document, page } = await openWithPdfjs(file);
    // ISO 216 in 1/72 in, ISO 32000-1; the picture is one inch by one.
    expect(page.view[2]).toBeCloseTo(595.2756, 3);
    expect(page.view[3]).toBeCloseTo(841.8898, 3);
    const { fnArray, argsArray } = await page.getOperatorList();
    const matrix = argsArray[fnArray.indexOf(OPS.transform)] as number[];
    expect(matrix[0]).toBeCloseTo(72, 3);
    expect(matrix[3]).toBeCloseTo(72, 3);
    expect(matrix[4]).toBeCloseTo((595.2756 - 72) / 2, 3);
    expect(matrix[5]).toBeCloseTo((841.8898 - 72) / 2, 3);
    await document.destroy();
    expect(pictureOf(file, info(720, 360)).equals(Buffer.from(pixels))).toBe(true);
    const small = sheetPage(info(720, 360, { paperMm: { width: 10, height: 100 } }));
    expect(small.media[2]).toBeCloseTo(72, 9);
    expect(small.picture[0]).toBe(0);
  });

  test('has every object where its cross-references say', () => {
    const text = pdfOf(info(30, 20)).file.toString('latin1');
    const startAt = Number(/startxref\n(\d+)\n%%EOF\n$/.exec(text)?.[1]);
    const table = /^xref\n0 (\d+)\n((?:\d{10} \d{5} [nf] \n)+)trailer\n/.exec(text.slice(startAt));
    // ISO 32000-1, 7.5.4: twenty bytes an entry; the first is the head of the free ones.
    const entries = table?.[2]?.match(/[^\n]{19}\n/g) ?? [];
    expect(entries).toHaveLength(Number(table?.[1]));
    expect(entries[0]).toBe('0000000000 65535 f \n');
    entries.slice(1).forEach((entry, i) => {
      expect(text.slice(Number(entry.slice(0, 10)))).toMatch(new RegExp(`^${i + 1} 0 obj\n`));
    });
    expect(text).toMatch(/\/ID \[<([0-9a-f]{32})> <\1>\]/);
  });

  test('past what ten digits can name, cross-references are a stream, which pdf.js reads', async () => {
    const sheet = info(30, 20, { title: 'Long' });
    const { file, pixels } = pdfOf(sheet, 7, (plan) => openPdf(plan, undefined, 0));
    expect(file.includes('\nxref\n')).toBe(false);
    const { document } = await openWithPdfjs(file);
    expect(document.numPages).toBe(1);
    expect((await document.getMetadata()).info).toMatchObject({ Title: 'Long' });
    await document.destroy();
    expect(pictureOf(file, sheet).equals(Buffer.from(pixels))).toBe(true);
    // The place of each object in it: type 1, six bytes of place (7.5.8.3).
    const text = file.toString('latin1');
    const stream = objectOf(file, 10).bytes();
    for (let object = 1; object <= 10; object += 1) {
      expect(stream[object * 9]).toBe(1);
      const place = stream.readUIntBE(object * 9 + 1, 6);
      expect(text.slice(place)).toMatch(new RegExp(`^${object} 0 obj\n`));
    }
  });

  test('names the print in any language, in both places', async () => {
    const title = 'Eisvögel (1) \\ 翡翠 <&> 🐟';
    const description = 'Woven at 59.92 LPI (0.4239 mm, nominal)\nribs upright';
    const writtenAt = new Date(Date.UTC(2026, 4, 9, 7, 5, 3));
    const { file } = pdfOf(info(3, 2, { title, description, software: 'Tiltloom', writtenAt }));
    const { document } = await openWithPdfjs(file);
    const { info: words, metadata } = await document.getMetadata();
    expect(words).toMatchObject({
      Title: title,
      Subject: description,
      Producer: 'Tiltloom',
      PDFFormatVersion: '1.6',
      CreationDate: "D:20260509070503+00'00'",
      Trapped: { name: 'False' },
    });
    expect(metadata.get('dc:title')).toBe(title);
    await document.destroy();
    const xmp = new JSDOM(objectOf(file, 9).bytes().toString('utf8'), { contentType: 'text/xml' })
      .window.document;
    const text = (name: string) => xmp.getElementsByTagName(name)[0]?.textContent;
    expect(text('dc:description')).toBe(description);
    expect(text('xmp:CreateDate')).toBe('2026-05-09T07:05:03Z');
    expect(text('pdf:Trapped')).toBe('False');
    // RFC 9562, 5.8: version 8, variant 10.
    expect(text('xmpMM:DocumentID')).toMatch(
      /^uuid:[0-9a-f]{8}-[0-9a-f]{4}-8[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/,
    );
  });

  test('any text comes back from pdf.js as it was, but for control characters', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.string({ unit: 'grapheme', minLength: 1, maxLength: 30 }),
        async (text) => {
          const title = `a${text}`.replace(/[\u0000-\u001f\u007f-\u009f\ufffe\uffff]/g, '');
          const { document } = await openWithPdfjs(pdfOf(info(2, 2, { title })).file);
          expect((await document.getMetadata()).info).toMatchObject({ Title: title });
          await document.destroy();
        },
      ),
      { numRuns: 30 },
    );
  });

  test('longer than a page may be, it counts in larger units: 6 m', async () => {
    const width = Math.round((6000 / 25.4) * 720);
    const sheet = info(width, 2);
    const { document, page } = await openWithPdfjs(pdfOf(sheet, 1).file);
    // 6 m are 17 007.874 units of 1/72 in, over the limit of 14 400 (ISO 32000-1, annex C.2).
    expect(page.userUnit).toBe(2);
    const right = page.view[2] ?? NaN;
    expect(right).toBeLessThanOrEqual(14400);
    expect(Math.abs(right * 2 - 17007.874)).toBeLessThan(72 / 720);
    await document.destroy();
  });

  test('refuses what it cannot hold by the name of the field', () => {
    const open = (more: Partial<SheetInfo>) => () =>
      pdfWriter.open({ info: info(10, 10, more), rowsInBand: 1 });
    expect(open({ width: 0 })).toThrow(/width/);
    expect(open({ height: 1.5 })).toThrow(/height/);
    expect(open({ horizontalDpi: 0 })).toThrow(/horizontalDpi/);
    expect(open({ verticalDpi: NaN })).toThrow(/verticalDpi/);
  });
});

describe('PDF’s units and words', () => {
  test('A4 and 3 mm in 1/72 in (ISO 216, ISO 32000-1)', () => {
    expect(mmToPoints(210)).toBeCloseTo(595.2756, 4);
    expect(mmToPoints(297)).toBeCloseTo(841.8898, 4);
    expect(mmToPoints(3)).toBeCloseTo(8.5039, 4);
  });
  test('a page of 14 400 units keeps them; one dot more doubles them', () => {
    const page = (height: number) => sheetPage(info(10, height, { verticalDpi: 72 }));
    expect(userUnit(page(14400))).toBe(1);
    expect(userUnit(page(14401))).toBe(2);
    expect(userUnit(page(28801))).toBe(3);
  });
  test('numbers never take an exponent (ISO 32000-1, 7.3.3)', () => {
    expect(pdfNumber(0.00000149)).toBe('0.000001');
    expect(pdfNumber(1e-9)).toBe('0');
    expect(pdfNumber(8503.9370078)).toBe('8503.937008');
  });
  test('strings: brackets and backslashes are escaped; beyond ASCII, UTF-16 with its mark', () => {
    expect(pdfText('a (b) \\ c')).toBe('(a \\(b\\) \\\\ c)');
    // ISO 32000-1, 7.9.2.2: FE FF, then UTF-16BE. U+00F6 and the pair of U+1F41F.
    expect(pdfText('ö🐟')).toBe('<feff00f6d83ddc1f>');
  });
});
