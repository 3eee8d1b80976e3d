/** A small print of the test's own pictures in place of the demo's, and the colour its proof has in the middle. */
import type { Page } from 'playwright/test';
import { expect } from 'playwright/test';
import sharp from 'sharp';
import { type } from './page.ts';

interface OwnPicture {
  readonly name: string;
  readonly mimeType: string;
  readonly buffer: Buffer;
}

/** Lays these in, the last of which is waited for, and makes the print 2 by 2.5 inches. */
export const layInSmall = async (page: Page, pictures: OwnPicture[]): Promise<void> => {
  await page.goto('./#/frames');
  await expect(page.getByText('12 for 12 slots')).toBeVisible();
  await page.getByRole('button', { name: 'Remove all' }).click();
  await page.locator('input[type=file]').first().setInputFiles(pictures);
  await expect(page.getByText(pictures.at(-1)?.name ?? '').first()).toBeVisible();
  await type(page, 'Print width', '2 in');
  await type(page, 'Print height', '2.5 in');
};

/** Red, green and blue, 0 … 255. */
export const middleOfProof = async (page: Page): Promise<number[]> => {
  const shot = await sharp(await page.getByTestId('tilt-proof').screenshot())
    .raw()
    .toBuffer({ resolveWithObject: true });
  const { width, height, channels } = shot.info;
  const at = (Math.floor(height / 2) * width + Math.floor(width / 2)) * channels;
  return [...shot.data.subarray(at, at + 3)];
};
