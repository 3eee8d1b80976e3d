/** The checklist of the Mount bench in the built studio: kept over a reload, undone, and out as a page. */
import { readFile } from 'node:fs/promises';
import { VerbosityLevel, getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { expect, test } from './support/kept-demo.ts';
import { keptAs } from './support/page.ts';

test('steps are ticked, kept, taken back and saved as one page to pin up', async ({ page }) => {
  await page.goto('#/mount');
  const box = (name: string) => page.getByRole('checkbox', { name, exact: true });
  await box('No scaling.').press('Space');
  await page.getByRole('heading', { name: 'Stick' }).click();
  await box('Roll it down.').check();
  const done = page.getByRole('progressbar', { name: 'Done' });
  await expect(done).toHaveAttribute('aria-valuetext', /, 2 of \d+ steps/);
  await page.getByRole('button', { name: 'Undo: checklist' }).click();
  await expect(box('Roll it down.')).not.toBeChecked();

  const download = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save the page to pin up' }).click();
  const file = await download;
  expect(file.suggestedFilename()).toMatch(/ mounting\.pdf$/);
  await expect(page.getByText('One page of A4 was made.')).toBeVisible();
  const loading = getDocument({
    data: new Uint8Array(await readFile(await file.path())),
    verbosity: VerbosityLevel.ERRORS,
  });
  const pdf = await loading.promise;
  expect(pdf.numPages).toBe(1);
  const { items } = await (await pdf.getPage(1)).getTextContent();
  const words = items.map((item) => ('str' in item ? item.str : '')).join(' ');
  expect(words.replace(/\s+/g, ' ')).toContain('No scaling. Print the PNG');
  await loading.destroy();

  await keptAs(page, (job) => job['mountTicks'] !== undefined);
  await page.reload();
  await expect(box('No scaling.')).toBeChecked();
  await page.getByRole('button', { name: 'Start again' }).click();
  await expect(box('No scaling.')).not.toBeChecked();
});
