/** What is being woven, or is woven, stays within reach though its part of a bench has gone. */
import type { Page } from 'playwright/test';
import sharp from 'sharp';
import { expect, test } from './support/kept-demo.ts';
import { holdWriting, saved, showPart, type } from './support/page.ts';

const weaving = (page: Page, what: string) =>
  page.getByRole('progressbar', { name: `Weaving ${what}`, exact: true });
const stop = (page: Page) => page.getByRole('button', { name: 'Stop', exact: true });

const open = async (page: Page, bench: string, width: string, height: string) => {
  await page.goto(`./#/${bench}`);
  await expect(page.getByText('12 for 12 slots').first()).toBeVisible();
  await type(page, 'Print width', width);
  await type(page, 'Print height', height);
};

/** Goes there by the rule of benches, as a person does. */
const go = (page: Page, bench: string) =>
  page.getByRole('navigation', { name: 'Benches' }).getByRole('link', { name: bench }).click();

const removeAll = async (page: Page) => {
  await go(page, 'Frames');
  await page.getByRole('button', { name: 'Remove all' }).click();
  await expect(page.getByRole('button', { name: 'Remove all' })).toHaveCount(0);
};

test('a sheet whose frames are removed under it is seen on every bench, is stopped there, and woven whole otherwise', async ({
  page,
}) => {
  await open(page, 'weave', '2 in', '2.5 in');
  const { untilItWaits, letGo } = await holdWriting(page);
  await page.getByRole('button', { name: 'Weave sheet' }).click();
  await untilItWaits();
  await expect(weaving(page, 'sheet')).toHaveCount(1);
  await removeAll(page);
  await expect(weaving(page, 'sheet')).toBeVisible();
  await go(page, 'Weave');
  await expect(page.getByRole('heading', { name: 'Nothing to weave yet' })).toBeVisible();
  await expect(weaving(page, 'sheet')).toHaveCount(1);
  await stop(page).click();
  await letGo();
  await expect(page.getByText('Stopped. Nothing was kept of the unfinished sheet.')).toBeVisible();

  // The frames come back where they were removed.
  await page.keyboard.press('Control+z');
  await expect(page.getByRole('heading', { name: 'Frames', level: 1 })).toBeVisible();
  await go(page, 'Weave');
  await page.getByRole('button', { name: 'Weave sheet' }).click();
  await expect(page.getByRole('link', { name: 'Save sheet' })).toBeVisible();
  await removeAll(page);
  await expect(page.getByRole('link', { name: 'Save sheet' })).toHaveCount(0);
  await go(page, 'Weave');
  await expect(page.getByText('The job has changed since', { exact: true })).toBeVisible();
  const { bytes } = await saved(page, 'Save sheet');
  await sharp(bytes).stats(); // Reads every row.
});

test('tiles that are woven are offered after the print lies under one lens sheet again', async ({
  page,
}) => {
  await open(page, 'mount', '100 mm', '60 mm');
  await showPart(page, 'Tiles');
  await page.getByRole('radio', { name: 'Several, side by side' }).check();
  await type(page, 'Dots across', '360');
  await type(page, 'Dots along', '360');
  await type(page, 'Lens sheet across the ribs', '75 mm');
  await type(page, 'Lens sheet along the ribs', '90 mm');
  await page.getByRole('button', { name: 'Weave tiles' }).click();
  await expect(page.getByRole('link', { name: 'Save row 1, tile 2' })).toHaveCount(1);
  await page.getByRole('radio', { name: 'One lens sheet', exact: true }).check();
  await expect(page.getByRole('button', { name: 'Weave tiles' })).toHaveCount(0);
  const { bytes } = await saved(page, 'Save row 1, tile 2');
  await sharp(bytes).stats();
});
