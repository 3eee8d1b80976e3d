/**
 * Ghosts and lamps in a real browser: a wedge woven and read back by libvips, a patch typed, the sheet
 * woven with that much ghost removed, and for a lamp; undo brings the first sheet back dot for dot.
 */
import type { Page } from 'playwright/test';
import sharp from 'sharp';
import { expect, test } from './support/kept-demo.ts';
import { field, saved, showPart, type } from './support/page.ts';

const dots = async (bytes: Buffer) => sharp(bytes).raw().toBuffer();

/** Weaves the sheet as the job stands. */
const sheet = async (page: Page) => {
  await page.goto('#/weave');
  await page.getByRole('button', { name: 'Weave sheet' }).click();
  await expect(page.getByText(/, woven in/)).toBeVisible();
  return dots((await saved(page, 'Save sheet')).bytes);
};

const meanOf = (light: Buffer) => light.reduce((sum, code) => sum + code, 0) / light.length;

test('weaves a ghost wedge, removes that ghost from the sheet, prints denser for a lamp, and takes it back @wider', async ({
  page,
}) => {
  await page.goto('#/calibrate');
  await showPart(page, 'More tests');
  await expect(page.getByRole('button', { name: 'Weave wedge' })).toBeVisible();
  await type(page, 'Print width', '30 mm');
  await type(page, 'Print height', '20 mm');
  const plain = await sheet(page);

  await page.goto('#/calibrate');
  await showPart(page, 'More tests');
  await page.getByRole('button', { name: 'Weave wedge' }).click();
  const wedge = await saved(page, 'Save wedge');
  expect(wedge.fileName).toBe('ghost wedge 30 percent 12 slots.png');
  const { info } = await sharp(wedge.bytes).raw().toBuffer({ resolveWithObject: true });
  // 30 mm of patches with 12 and 4 mm beside them; 16 patches of 11.2 mm, 10 mm above and 4 below.
  const inDots = (lengthMm: number) => Math.round((lengthMm / 25.4) * 720);
  expect(Math.abs(info.width - inDots(46))).toBeLessThan(3);
  expect(Math.abs(info.height - inDots(193.2))).toBeLessThan(3);

  await type(page, 'Patch without ghost', '17');
  await expect(page.getByText('Patches are numbered 1 to 16')).toBeVisible();
  await type(page, 'Patch without ghost', '6.5');
  await expect(field(page, 'Leak removed')).toHaveValue('11');
  await page.getByRole('radio', { name: 'Kept', exact: true }).check();
  await expect(page.locator('summary', { hasText: 'Clipped, picture by picture' })).toBeVisible();
  await page.getByRole('radio', { name: 'Lowered', exact: true }).check();
  const cleaned = await sheet(page);
  expect(cleaned.length).toBe(plain.length);
  expect(cleaned.equals(plain)).toBe(false);

  await page.goto('#/calibrate');
  await showPart(page, 'More tests');
  await page.getByRole('radio', { name: 'By a lamp behind it' }).check();
  await type(page, 'Patch that looks right', '14');
  await expect(field(page, 'Density over the lamp')).toHaveValue('1.6');
  const denser = await sheet(page);
  expect(meanOf(denser)).toBeLessThan(meanOf(cleaned) - 20);

  for (const label of [
    'lamp patch',
    'lamp behind the print',
    'ghost removal contrast',
    'ghost removal contrast',
    'ghost removal',
  ])
    await page.getByRole('button', { name: `Undo: ${label}`, exact: true }).click();
  expect((await sheet(page)).equals(plain)).toBe(true);
});
