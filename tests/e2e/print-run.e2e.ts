/** A print run of tiles: one alone, the rest, one again, all as one PDF, ticked off as mounted. */
import { readFile } from 'node:fs/promises';
import { VerbosityLevel, getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { expect, test } from './support/kept-demo.ts';
import { field, saved, showPart, type } from './support/page.ts';

test('tiles are woven alone and together, saved as one PDF, and ticked off over a reload', async ({
  page,
}) => {
  await page.goto('./#/mount');
  await expect(field(page, 'Job name')).toHaveValue('The old glasshouse');
  await showPart(page, 'Tiles');
  await page.getByRole('radio', { name: 'Several, side by side' }).check();
  await type(page, 'Print width', '100 mm');
  await type(page, 'Print height', '60 mm');
  await type(page, 'Dots across', '360');
  await type(page, 'Dots along', '360');
  await type(page, 'Lens sheet across the ribs', '75 mm');
  await type(page, 'Lens sheet along the ribs', '90 mm');
  await page.getByRole('radio', { name: 'PDF', exact: true }).check();

  await showPart(page, 'Print run');
  await page.getByRole('button', { name: 'Weave row 1, tile 2 alone' }).click();
  const alone = await saved(page, 'Save row 1, tile 2');
  await expect(page.getByRole('link', { name: 'Save row 1, tile 1' })).toHaveCount(0);
  await page.getByRole('button', { name: 'Weave all under Tiles' }).click();
  await page.getByRole('button', { name: 'Go on weaving tiles' }).click();
  await expect(page.getByText(/2 tiles woven in/)).toBeVisible();

  await showPart(page, 'Print run');
  const together = await saved(page, 'Save row 1, tile 2');
  expect(together.bytes.equals(alone.bytes), 'what was whole was not woven again').toBe(true);
  const link = page.getByRole('link', { name: 'Save row 1, tile 2' });
  const before = (await link.getAttribute('href')) ?? '';
  await page.getByRole('button', { name: 'Weave row 1, tile 2 again' }).click();
  await expect(link).not.toHaveAttribute('href', before);
  const again = await saved(page, 'Save row 1, tile 2');
  expect(again.bytes.equals(alone.bytes), 'of the same date and dots').toBe(true);

  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Save all as one PDF' }).click(),
  ]);
  expect(download.suggestedFilename()).toMatch(/2 tiles\.pdf$/);
  const document = await getDocument({
    data: new Uint8Array(await readFile(await download.path())),
    stopAtErrors: true,
    verbosity: VerbosityLevel.ERRORS,
  }).promise;
  expect(document.numPages).toBe(2);

  await page.getByRole('checkbox', { name: 'row 1, tile 1 mounted' }).check();
  await type(page, 'Lens batch of row 1, tile 1', 'B-7');
  await expect(page.getByText('1 of 2 mounted. Next: row 1, tile 2.')).toBeVisible();
  await page.reload();
  await expect(page.getByText('1 of 2 mounted. Next: row 1, tile 2.')).toBeVisible();
  await expect(field(page, 'Lens batch of row 1, tile 1')).toHaveValue('B-7');
  await expect(page.getByRole('link', { name: 'Save row 1, tile 2' })).toBeVisible();

  // Another job: its files are out of date, and one alone would not fit the others.
  await type(page, 'Viewing distance', '500 mm');
  await expect(page.getByText('The job has changed since', { exact: true })).toBeVisible();
  await page.getByRole('button', { name: 'Weave row 1, tile 1 again' }).click();
  await expect(
    page.getByText(/cannot be woven again by itself, because .* changed since/),
  ).toBeVisible();
  await expect(page.getByRole('link', { name: 'Save row 1, tile 1' })).toBeVisible();
});
