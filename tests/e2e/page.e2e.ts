/** A page around the demo's picture in the built studio: woven, saved, its dots looked at. */
import type { Page } from 'playwright/test';
import sharp from 'sharp';
import { expect, test } from './support/kept-demo.ts';
import { saved, showPart, type } from './support/page.ts';

const openPage = async (page: Page) => {
  await page.goto('./#/mount');
  await showPart(page, 'Page');
  await page.getByRole('radio', { name: 'A whole page' }).check();
  await expect(page.getByRole('slider', { name: 'Print on the paper' })).toBeVisible();
};

test('a page switched on is woven with rails, marks and bleed where they belong', async ({
  page,
}) => {
  await openPage(page);
  await type(page, 'Print width', '50.8 mm');
  await type(page, 'Print height', '63.5 mm');
  await page.getByRole('combobox', { name: 'Sheet paper' }).selectOption('a5');
  await type(page, 'Print from the left', '40 mm');
  await type(page, 'Print from the top', '50 mm');
  await page.getByRole('slider', { name: 'Print on the paper' }).press('ArrowRight');
  await expect(page.getByRole('textbox', { name: 'Print from the left' })).toHaveValue(/^41/);

  // By hand: a quarter of the A5 paper's drawn width to the right, and back by undo.
  const paper = page.getByRole('group', { name: 'The page to scale' });
  const drawn = await paper.boundingBox();
  const print = await page.getByRole('slider', { name: 'Print on the paper' }).boundingBox();
  if (drawn === null || print === null) throw new Error('The page is not drawn.');
  const [startX, startY] = [print.x + print.width / 2, print.y + print.height / 2];
  await page.mouse.move(startX, startY);
  await page.mouse.down();
  await page.mouse.move(startX + drawn.width / 8, startY, { steps: 3 });
  await page.mouse.move(startX + drawn.width / 4, startY, { steps: 3 });
  await page.mouse.up();
  const left = page.getByRole('textbox', { name: 'Print from the left' });
  const typed = Number((await left.inputValue()).replace(/[^\d.]/g, ''));
  expect(Math.abs(typed - (41 + 148 / 4))).toBeLessThan(1.5);
  await page.getByRole('button', { name: /^Undo/ }).click();
  await expect(left).toHaveValue(/^41/);

  await page.goto('./#/weave');
  await page.getByRole('button', { name: 'Weave sheet' }).click();
  const { bytes: file } = await saved(page, 'Save sheet');
  const { data, info } = await sharp(file)
    .removeAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  // A5, 148 × 210 mm (ISO 216), at 720 dpi.
  const dots = (lengthMm: number) => Math.round((lengthMm * 720) / 25.4);
  expect([info.width, info.height]).toEqual([dots(148), dots(210)]);
  const at = (xMm: number, yMm: number) => {
    const from = (dots(yMm) * info.width + dots(xMm)) * 3;
    return [...data.subarray(from, from + 3)];
  };
  const line = (fromMm: number, toMm: number, yMm: number) =>
    Array.from({ length: dots(toMm) - dots(fromMm) }, (_, i) => {
      const dot = (dots(yMm) * info.width + dots(fromMm) + i) * 3;
      return data[dot] as number;
    });
  expect(at(1, 1)).toEqual([255, 255, 255]);
  // Crop mark at the trim's top left corner: on its line, beyond 2 mm of bleed and a gap of 1 mm.
  expect(at(41 - 5, 50)).toEqual([0, 0, 0]);
  expect(at(41 - 5, 49)).toEqual([255, 255, 255]);
  // The left rail lies 3 to 9 mm outside the trim: about 14 lines of a 60 LPI lens in 6 mm.
  const rail = line(41 - 9, 41 - 3, 80);
  const darkRuns = rail.filter((v, i) => v < 128 && (i === 0 || (rail[i - 1] as number) >= 128));
  expect(Math.abs(darkRuns.length - (6 * 60) / 25.4)).toBeLessThanOrEqual(1.2);
  // The bleed is picture, the gap beyond it paper.
  expect(line(41 - 2.6, 41 - 2.2, 80).every((v) => v === 255)).toBe(true);
  expect(line(41 - 1.9, 41, 80).some((v) => v < 250)).toBe(true);
});
