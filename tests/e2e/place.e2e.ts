/**
 * Two photographs of one scene, of different shapes: laid on each other in the built studio, and woven. Whether they lie on
 * each other is seen in the sheet alone: under each rib the dots of both then show the same.
 */
import type { Page } from 'playwright/test';
import sharp from 'sharp';
import { at } from '../tools/house.mjs';
import { axeFaults } from './support/axe.ts';
import { expect, test } from './support/kept-demo.ts';
import { saved, type } from './support/page.ts';

const scene = at('demo-scenes/glasshouse/glasshouse_05.png');

/** The second is turned by 4°, smaller, upright where the first lies, and shows more all around. */
const photographs = async () => {
  const lying = await sharp(scene)
    .extract({ left: 80, top: 200, width: 440, height: 330 })
    .png()
    .toBuffer();
  const turned = await sharp(scene).rotate(4, { background: '#808080' }).png().toBuffer();
  const { width, height } = await sharp(turned).metadata();
  const upright = await sharp(turned)
    .extract({
      left: Math.round(width / 2 - 280),
      top: Math.round(height / 2 - 350),
      width: 560,
      height: 700,
    })
    .resize(480)
    .png()
    .toBuffer();
  return [
    { name: 'open.png', mimeType: 'image/png', buffer: lying },
    { name: 'shut.png', mimeType: 'image/png', buffer: upright },
  ];
};

/** Mean difference, in codes, between dots half a rib apart: those of the two pictures, and of neighbouring ribs. */
const unlike = async (page: Page): Promise<number> => {
  await page.goto('./#/weave');
  await page.getByRole('button', { name: 'Weave sheet' }).click();
  const { bytes } = await saved(page, 'Save sheet');
  const { data, info } = await sharp(bytes)
    .removeAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  let [sum, count] = [0, 0];
  for (let y = 0; y < info.height; y += 5)
    for (let x = 0; x + 6 < info.width; x += 1)
      for (let c = 0; c < 3; c += 1) {
        const here = (y * info.width + x) * 3 + c;
        sum += Math.abs(data[here]! - data[here + 18]!);
        count += 1;
      }
  return sum / count;
};

test('two photographs of other shapes are placed on each other and woven so', async ({ page }) => {
  await page.goto('./#/frames');
  await expect(page.getByText('12 for 12 slots')).toBeVisible();
  await page.getByRole('button', { name: 'Remove all' }).click();
  await page.locator('input[aria-label="Add frames"]').setInputFiles(await photographs());
  await expect(page.getByText('shut.png').first()).toBeVisible();
  await type(page, 'Print width', '2 in');
  await type(page, 'Print height', '1.5 in');
  await type(page, 'View slots', '2');
  await expect(page.getByText(/another shape than the usual/)).toBeVisible();
  const before = await unlike(page);

  await page.goto('./#/frames');
  await page.getByText(/Crop, zoom, shift or turn one picture/).click();
  await page.getByLabel('Picture', { exact: true }).selectOption({ label: '2 · shut.png' });
  await page.getByRole('button', { name: 'Match by itself' }).click();
  await expect(
    page.getByText(/shut\.png lies on open\.png: \d+ of \d+ places agree/).first(),
  ).toBeVisible();
  // Turned by 4° clockwise, it is turned back.
  await expect(page.getByLabel('Turn clockwise')).toHaveValue(/^-(3\.9|4$|4\.0)/);
  await expect(page.getByText(/another shape than the usual/)).toHaveCount(0);
  await expect(page.getByText(/leaves paper bare/)).toHaveCount(0);
  expect(await axeFaults(page)).toEqual([]);

  expect(await unlike(page)).toBeLessThan(before / 2);

  // By keys: an arrow shifts it by 1 mm, and undo takes it back.
  await page.goto('./#/frames');
  await page.getByText(/1 of 2 placed by itself/).click();
  await page.getByLabel('Picture', { exact: true }).selectOption({ label: '2 · shut.png' });
  const right = page.getByLabel('To the right');
  const shift = Number(await right.inputValue());
  await page.getByRole('application', { name: 'shut.png on the print' }).press('ArrowRight');
  await expect.poll(async () => Number(await right.inputValue()) - shift).toBeCloseTo(1, 2);
  await page.getByRole('button', { name: /^Undo/ }).first().click();
  await expect.poll(async () => Number(await right.inputValue())).toBeCloseTo(shift, 2);
  await page.getByRole('button', { name: 'Back to as it was' }).click();
  await expect(page.getByLabel('Zoom')).toHaveValue('100');
});

test('two points lay a picture where they are put, by keys alone', async ({ page }) => {
  await page.goto('./#/frames');
  await expect(page.getByText('12 for 12 slots')).toBeVisible();
  await page.getByText(/Crop, zoom, shift or turn one picture/).click();
  await page.getByRole('button', { name: 'Match two points' }).click();
  // Both points of the other picture 20 pixels further right: the picture is shifted by so much, and not zoomed.
  for (const point of [1, 2])
    await page
      .getByRole('button', { name: new RegExp(`^Point ${point} in .*02`) })
      .press('Shift+ArrowRight');
  await page.getByRole('button', { name: 'Lay them on each other' }).click();
  await expect(page.getByLabel('Zoom')).toHaveValue('100');
  await expect(page.getByLabel('To the right')).not.toHaveValue('0');
  await expect(page.getByLabel('Down', { exact: true })).toHaveValue('0');
});
