/** Contrast lowered where a flip ghosts: one press, told, woven, and one press back. */
import sharp from 'sharp';
import { expect, test } from './support/kept-demo.ts';
import { keptAs, saved, showPart, type } from './support/page.ts';
import { layInSmall } from './support/small-job.ts';

/** Grey with a white square, by its left and top edge. */
const lamp = async (name: string, left: number, top: number) => ({
  name,
  mimeType: '',
  buffer: await sharp({
    create: { width: 200, height: 250, channels: 3, background: { r: 90, g: 90, b: 90 } },
  })
    .composite([
      {
        input: { create: { width: 50, height: 50, channels: 3, background: '#ffffff' } },
        left,
        top,
      },
    ])
    .png()
    .toBuffer(),
});

test('contrast is lowered where pictures of a flip ghost, woven so, and given back', async ({
  page,
}) => {
  await layInSmall(page, [await lamp('a.png', 20, 20), await lamp('b.png', 130, 180)]);
  await page.getByRole('radio', { name: 'Flip' }).check();
  await type(page, 'Guard slots', '0');

  await page.goto('./#/weave');
  await expect(page.getByText(/Preparing frames/)).toBeHidden();
  /** The brightest dots of the sheet at the middle of the first lamp. */
  const lampLight = async (button: string) => {
    await page.getByRole('button', { name: button }).click();
    const { bytes } = await saved(page, 'Save sheet');
    const { data, info } = await sharp(bytes).raw().toBuffer({ resolveWithObject: true });
    const at = Math.round((45 / 250) * info.height) * info.width + Math.round(0.2 * info.width);
    return Math.max(...data.subarray(3 * at, 3 * (at + 40)));
  };
  expect(await lampLight('Weave sheet')).toBe(255);
  await showPart(page, 'Ghosts');
  await page.getByRole('button', { name: 'Lower the contrast in these places' }).click();
  await expect(page.getByText(/^Contrast is lowered in \d+ places against ghosts/)).toBeVisible();
  await keptAs(page, (job) => job['ghostEase'] !== undefined);
  await showPart(page, 'Proof and sheet');
  await expect(page.getByText(/Preparing frames/)).toBeHidden();
  expect(await lampLight('Weave sheet')).toBeLessThan(250);
  await showPart(page, 'Ghosts');
  await page.getByRole('button', { name: 'Give the contrast back' }).click();
  await expect(page.getByText(/^Contrast is lowered/)).toBeHidden();
  await keptAs(page, (job) => job['ghostEase'] === undefined);
});
