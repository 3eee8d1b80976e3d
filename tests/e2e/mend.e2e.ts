/**
 * A failed print put right in the built studio: what it looks like, a count, the change, the trial and the
 * corrected sheet; and one photo of a print that lies right.
 */
import type { Page } from 'playwright/test';
import sharp from 'sharp';
import { expect, test } from './support/kept-demo.ts';
import { saved, showPart, type } from './support/page.ts';
import { usualGapAheadMm } from '../golden/traced-by-bench.ts';

const openSmallJob = async (page: Page) => {
  await page.goto('./#/mend');
  await type(page, 'Print width', '4 in');
  await type(page, 'Print height', '5 in');
};

test('a symptom and a count become a corrected pitch, a trial, a slice and a sheet, and undo takes all back', async ({
  page,
}) => {
  await openSmallJob(page);
  const pitch = page.getByText(/^59\.924 LPI · /);
  await expect(pitch).toBeVisible();
  await page.getByRole('radio', { name: /^Bands that slant/ }).check();
  await page.getByRole('button', { name: /^Pitch a little too fine/ }).click();
  await type(page, 'Bands, counted left to right', '1.5');
  // Which way the bands run is not known yet: two pitches are left.
  await expect(page.getByText(/ or \d+\.\d+ LPI/)).toBeVisible();
  await page.getByLabel('Head goes right: the bands go').selectOption({ label: 'The same way' });
  await expect(page.getByRole('heading', { name: /^The woven pitch does not suit/ })).toBeVisible();

  // Relations 2 and 9, written out again: bands W⁻¹ zones an inch, seen through 1 + g₀ / D.
  const reach = 1 + usualGapAheadMm / 400;
  const wanted = Number((60 / reach - 1.5 / 4 / reach).toFixed(3));
  await page.getByRole('button', { name: 'Change the job and log this trial' }).click();
  await expect(page.getByText(`${wanted} ±`).first()).toBeVisible();
  await page.getByRole('button', { name: 'See the trials' }).click();
  await expect(page.getByRole('heading', { name: /^Trial 1, .*: failed$/ })).toBeVisible();
  await showPart(page, 'This print');

  await page.getByRole('button', { name: 'Weave slice' }).click();
  const slice = await saved(page, 'Save slice');
  // Four inches wide, 25 mm along the ribs.
  expect(await sharp(slice.bytes).metadata()).toMatchObject({
    width: 2880,
    height: Math.round((25 / 25.4) * 720),
    density: 720,
  });

  await page.goto('./#/weave');
  await page.getByRole('button', { name: 'Weave sheet' }).click();
  const sheet = await saved(page, 'Save sheet');
  expect(sheet.fileName).toContain(`${wanted.toFixed(3)} lpi`);
  // The slice is the sheet's own middle, dot for dot.
  const rows = await sharp(sheet.bytes)
    .extract({ left: 0, top: Math.floor((3600 - 709) / 2), width: 2880, height: 709 })
    .removeAlpha()
    .raw()
    .toBuffer();
  expect(rows.equals(await sharp(slice.bytes).removeAlpha().raw().toBuffer())).toBe(true);

  await page.goto('./#/mend');
  await page.getByRole('button', { name: /^Undo: trial and cure/ }).click();
  await expect(pitch).toBeVisible();
  await showPart(page, 'Trials');
  await expect(page.getByText('No print has been logged yet')).toBeVisible();
  await expect(page.getByRole('heading', { name: /^Trial 1/ })).toHaveCount(0);
  await showPart(page, 'This print');
  await expect(page.getByLabel('Bands, counted left to right', { exact: true })).toHaveValue('1.5');
});

test('a photo of a print that lies right says so @wider', async ({ page }) => {
  await openSmallJob(page);
  // Straight ahead of a right print one view shows everywhere: a render is the photo of one. The picture
  // fills the middle of it, where the corners to drag stand at first.
  const frame = sharp('demo-scenes/glasshouse/glasshouse_07.png').removeAlpha().resize(800, 1000);
  const photo = await frame
    .extend({ top: 125, bottom: 125, left: 100, right: 100, background: '#777777' })
    .png()
    .toBuffer();
  await page
    .getByLabel('Choose a photo of the print')
    .last()
    .setInputFiles({ name: 'print.png', mimeType: 'image/png', buffer: photo });
  await page.getByRole('button', { name: 'Read with these corners' }).click();
  await page.getByRole('button', { name: 'Take these numbers' }).click();
  // A quarter of a band is the budget of a print.
  const counted = async (label: string) =>
    Number(await page.getByLabel(label, { exact: true }).inputValue());
  expect(await counted('Bands, counted left to right')).toBeLessThan(0.25);
  expect(await counted('Bands, counted top to bottom')).toBeLessThan(0.25);
});
