/** The demo woven as TIFF and as PDF in the built studio, saved, and read back by readers of others. */
import { readFileSync } from 'node:fs';
import { inflateSync } from 'node:zlib';
import { VerbosityLevel, getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import type { Page } from 'playwright/test';
import sharp from 'sharp';
import { expect, test } from './support/kept-demo.ts';
import { saveTo, type } from './support/page.ts';

/** The demo's frames on a small print, 2 × 2.5 in, so that a test is quick. */
const openStudio = async (page: Page) => {
  await page.goto('./#/weave');
  await expect(page.getByText('12 for 12 slots')).toBeVisible();
  await type(page, 'Print width', '2 in');
  await type(page, 'Print height', '2.5 in');
};

const chooseType = (page: Page, name: string) =>
  page
    .getByRole('radiogroup', { name: 'File type' })
    .getByRole('radio', { name, exact: true })
    .check();

const weaveAndSave = async (page: Page, type: string) => {
  await chooseType(page, type);
  await page.getByRole('button', { name: 'Weave sheet' }).click();
  const extension = { PNG: '.png', TIFF: '.tif', PDF: '.pdf' }[type] ?? '';
  const link = page.getByRole('link', { name: 'Save sheet' });
  // The last sheet's link goes at once; this waits for the new one.
  await expect(link).toHaveAttribute('download', new RegExp(`\\${extension}$`));
  const mimeType = await page.evaluate(
    async (href) => (await (await fetch(href)).blob()).type,
    (await link.getAttribute('href')) ?? '',
  );
  const download = page.waitForEvent('download');
  await link.click();
  const path = await (await download).path();
  return { file: readFileSync(path), name: (await download).suggestedFilename(), mimeType };
};

const dotsOf = (file: Buffer) => sharp(file).removeAlpha().raw().toBuffer();

test('TIFF and PDF have the dots of the PNG, the right names, types and size', async ({ page }) => {
  await openStudio(page);
  const png = await weaveAndSave(page, 'PNG');
  const dots = await dotsOf(png.file);
  expect(dots).toHaveLength(1440 * 1800 * 3);

  const tiff = await weaveAndSave(page, 'TIFF');
  expect(tiff.name).toBe(png.name.replace(/png$/, 'tif'));
  expect(tiff.mimeType).toBe('image/tiff');
  const facts = await sharp(tiff.file).metadata();
  expect(facts).toMatchObject({ format: 'tiff', width: 1440, height: 1800, density: 720 });
  expect(facts.icc?.length).toBeGreaterThan(128);
  expect((await dotsOf(tiff.file)).equals(dots)).toBe(true);

  const pdf = await weaveAndSave(page, 'PDF');
  expect(pdf.name).toBe(png.name.replace(/png$/, 'pdf'));
  expect(pdf.mimeType).toBe('application/pdf');
  const document = await getDocument({
    data: new Uint8Array(pdf.file),
    stopAtErrors: true,
    verbosity: VerbosityLevel.ERRORS,
  }).promise;
  const sheet = await document.getPage(1);
  // 2 × 2.5 in, in 1/72 in.
  expect(sheet.view).toEqual([0, 0, 144, 180]);
  expect((await document.getMetadata()).info).toMatchObject({
    Title: 'The old glasshouse',
    Producer: 'Tiltloom',
  });
  await document.destroy();

  // PDF takes the very stream that PNG has (ISO 32000-1, 7.4.4.4).
  const idat: Buffer[] = [];
  for (let at = 8; at < png.file.length; at += 12 + png.file.readUInt32BE(at))
    if (png.file.toString('latin1', at + 4, at + 8) === 'IDAT')
      idat.push(png.file.subarray(at + 8, at + 8 + png.file.readUInt32BE(at)));
  const text = pdf.file.toString('latin1');
  const from = text.indexOf('stream\n', text.indexOf('/Subtype /Image')) + 'stream\n'.length;
  const length = Number(/\n7 0 obj\n(\d+)\nendobj/.exec(text)?.[1]);
  const stream = pdf.file.subarray(from, from + length);
  expect(inflateSync(stream).equals(inflateSync(Buffer.concat(idat)))).toBe(true);
});

test('the file type is remembered, and a chosen TIFF file is finished by its header @wider', async ({
  page,
}) => {
  // The browser's own dialog cannot be driven: a handle on the private disk stands in for its answer.
  await page.addInitScript(() => {
    Object.assign(globalThis, {
      showSaveFilePicker: async (options: { suggestedName: string; types: unknown }) => {
        Object.assign(globalThis, { asked: options });
        const root = await navigator.storage.getDirectory();
        return root.getFileHandle(options.suggestedName, { create: true });
      },
    });
  });
  await openStudio(page);
  await chooseType(page, 'TIFF');
  await page.reload();
  await expect(page.getByRole('radio', { name: 'TIFF', exact: true })).toBeChecked();
  await saveTo(page, 'A file I choose');
  await page.getByRole('button', { name: 'Weave sheet' }).click();
  await expect(page.getByText(/^Saved as/)).toBeVisible();
  const asked = await page.evaluate(
    () => (globalThis as unknown as { asked: { types: unknown } }).asked.types,
  );
  expect(asked).toEqual([{ description: 'TIFF picture', accept: { 'image/tiff': ['.tif'] } }]);
  const bytes = await page.evaluate(async () => {
    const root = await navigator.storage.getDirectory();
    for await (const entry of root.values())
      if (entry.name.endsWith('.tif')) {
        const file = await (entry as FileSystemFileHandle).getFile();
        const whole = new Uint8Array(await file.arrayBuffer());
        let text = '';
        for (let at = 0; at < whole.length; at += 32768)
          text += String.fromCharCode(...whole.subarray(at, at + 32768));
        return btoa(text);
      }
    return '';
  });
  const facts = await sharp(Buffer.from(bytes, 'base64')).metadata();
  expect(facts).toMatchObject({ format: 'tiff', width: 1440, height: 1800, density: 720 });
});
