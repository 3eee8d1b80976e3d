/** A printer profile in the built studio: kept with a paper, a sheet converted for it, read back by readers of others. */
import { fromArrayBuffer } from 'geotiff';
import type { Page } from 'playwright/test';
import sharp from 'sharp';
import { cmykProfile } from '../contract/colour/published.ts';
import { expect, test } from './support/kept-demo.ts';
import { saved, type } from './support/page.ts';

const upload = (name: string, bytes: Uint8Array) => ({
  name,
  mimeType: 'application/vnd.iccprofile',
  buffer: Buffer.from(bytes),
});

const weaveAs = async (page: Page, fileType: 'TIFF' | 'PDF') => {
  await page
    .getByRole('radiogroup', { name: 'File type' })
    .getByRole('radio', { name: fileType, exact: true })
    .check();
  await page.getByRole('button', { name: 'Weave sheet' }).click();
  const ending = { TIFF: /\.tif$/, PDF: /\.pdf$/ }[fileType];
  await expect(page.getByRole('link', { name: 'Save sheet' })).toHaveAttribute('download', ending);
  return (await saved(page, 'Save sheet')).bytes;
};

test('a sheet is converted for a paper, and a broken profile is refused', async ({ page }) => {
  const profile = await cmykProfile();
  await page.goto('#/workshop');
  await page.getByRole('radio', { name: 'Papers' }).check();
  await page.getByRole('button', { name: 'Add a paper' }).click();
  const add = page.getByLabel('Add a profile').and(page.locator('input'));
  await add.setInputFiles(upload('Torn.icc', profile.slice(0, 5000)));
  await expect(page.getByText(/“Torn.icc” cannot be used .* It breaks off/)).toBeVisible();
  await add.setInputFiles(upload('Glossy.icc', profile));
  await expect(page.getByText('“Chemical proof” is kept with My paper')).toBeVisible();

  await page.goto('#/weave');
  await expect(page.getByText('12 for 12 slots')).toBeVisible();
  await type(page, 'Print width', '2 in');
  await type(page, 'Print height', '2.5 in');
  await page.getByLabel('Colours', { exact: true }).selectOption('Converted for My paper');
  await expect(page.getByText('PNG holds no CMYK.')).toBeVisible();

  const tiff = await weaveAs(page, 'TIFF');
  const { icc, space } = await sharp(tiff).metadata();
  expect(space).toBe('cmyk');
  expect(icc?.equals(Buffer.from(profile))).toBe(true);
  const image = await (await fromArrayBuffer(new Uint8Array(tiff).buffer)).getImage();
  expect([image.getWidth(), image.getHeight(), image.getSamplesPerPixel()]).toEqual([
    1440, 1800, 4,
  ]);
  expect((await weaveAs(page, 'PDF')).toString('latin1')).toContain('PDF/X-4');

  await page.getByRole('radio', { name: 'On the paper’s white' }).check();
  await page.getByRole('button', { name: 'Mark what the paper cannot show' }).click();
  await expect(
    page.getByText(/^Marked in magenta: .* Most of them are in glasshouse_/),
  ).toBeVisible();

  // The colours are those of the sheet in sRGB, through libvips’ own build of the engine.
  await page.getByLabel('Colours', { exact: true }).selectOption('Tagged sRGB');
  const plain = await weaveAs(page, 'TIFF');
  const meansOf = async (file: Buffer) =>
    (
      await sharp(await sharp(file).toColourspace('srgb').removeAlpha().png().toBuffer()).stats()
    ).channels.map(({ mean }) => mean);
  const [wanted, found] = [await meansOf(plain), await meansOf(tiff)];
  expect(found).toHaveLength(3);
  for (const [channel, mean] of wanted.entries())
    expect(Math.abs(mean - (found[channel] ?? NaN))).toBeLessThan(8);
});
