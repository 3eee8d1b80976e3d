/** Shelves and money in the built studio: kept over a reload and between tabs, out to a file and back. */
import { readFile, writeFile } from 'node:fs/promises';
import type { Page } from 'playwright/test';
import { expect, test } from './support/kept-demo.ts';
import { field, showPart, type } from './support/page.ts';

const opened = async (page: Page) => {
  await page.goto('#/workshop');
  await expect(page.getByRole('button', { name: 'Export shelves' })).toBeVisible();
};
const onShelf = (page: Page, name: string) => page.getByRole('heading', { level: 3, name });

test('a lens goes on the shelf, into the job, out to a file and back, and costs are told', async ({
  page,
  context,
}, testInfo) => {
  await opened(page);
  await page.getByRole('button', { name: 'Add a lens' }).click();
  await type(page, 'Name', 'Lighthouse sheet');
  await type(page, 'Pitch', '50 lpi');
  await type(page, 'Thickness', '1 mm');
  await type(page, 'Price of a sheet', '9');
  const entry = page.getByRole('listitem').filter({ has: onShelf(page, 'Lighthouse sheet') });
  await entry.getByRole('button', { name: 'Use for this job' }).click();
  await expect(field(page, 'Lens pitch')).toHaveValue('50');
  await expect(field(page, 'Lens thickness')).toHaveValue('1');
  // Out of 300 × 400 mm the print of 203.2 × 254 mm comes once.
  await page.goto('#/plan');
  await showPart(page, 'Money and time');
  await expect(page.locator('summary', { hasText: 'Lens for a print' })).toContainText('9.00');
  await opened(page);

  const download = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Export shelves' }).click();
  const file = await readFile(await (await download).path(), 'utf8');
  expect((JSON.parse(file) as { kind: string }).kind).toBe('tiltloom-shelves');

  // Another tab follows, and a reload keeps all of it.
  const other = await context.newPage();
  await opened(other);
  await expect(onShelf(other, 'Lighthouse sheet')).toBeVisible();
  await entry.getByRole('button', { name: 'Remove' }).click();
  await expect(onShelf(other, 'Lighthouse sheet')).toHaveCount(0);
  await other.close();
  await page.reload();
  await expect(onShelf(page, 'Generic 40 LPI, nominal')).toBeVisible();
  await expect(onShelf(page, 'Lighthouse sheet')).toHaveCount(0);

  const path = testInfo.outputPath('shelves.json');
  await writeFile(path, file);
  await page.getByLabel('Import shelves').and(page.locator('input')).setInputFiles(path);
  await expect(page.getByText('1 entry imported from shelves.json')).toBeVisible();
  await expect(onShelf(page, 'Lighthouse sheet')).toBeVisible();
});
