/**
 * The Calibrate bench in a real browser: a strip woven and saved, read back by libvips and measured by
 * a Fourier sum of its own; a band typed; the job proved; the next sheet woven with it.
 */
import type { Page } from 'playwright/test';
import sharp from 'sharp';
import { expect, test } from './support/kept-demo.ts';
import { field, keptAs, saved, type } from './support/page.ts';

const opened = async (page: Page) => {
  await page.goto('#/calibrate');
  await expect(field(page, 'Strip centre')).toBeVisible();
};

/** Strength of a row's darkness at so many lines to the inch: a Fourier sum under a Hann window. */
const strengthAt = (dark: Float64Array, dpi: number, linesPerInch: number): number => {
  let re = 0;
  let im = 0;
  dark.forEach((value, dot) => {
    const window = 0.5 - 0.5 * Math.cos((2 * Math.PI * (dot + 0.5)) / dark.length);
    const turn = (2 * Math.PI * dot * linesPerInch) / dpi;
    re += window * value * Math.cos(turn);
    im += window * value * Math.sin(turn);
  });
  return Math.hypot(re, im);
};

/** The strongest frequency near `about`, lines to the inch, by a search that halves its step. */
const pitchOfRow = (dark: Float64Array, dpi: number, about: number): number => {
  let best = about;
  for (let step = 0.2; step > 1e-5; step /= 2)
    for (const tried of [best - step, best + step])
      if (strengthAt(dark, dpi, tried) > strengthAt(dark, dpi, best)) best = tried;
  return best;
};

test('weaves a strip, proves the pitch by its best band, and weaves the next sheet with it', async ({
  page,
}) => {
  await opened(page);
  await type(page, 'Print width', '120 mm');
  await type(page, 'Print height', '40 mm');
  await type(page, 'Strip centre', '59.9 lpi');
  await type(page, 'Strip spread', '0.2');
  await type(page, 'Bands', '5');
  await page.getByRole('button', { name: 'Weave strip' }).click();
  const { bytes, fileName } = await saved(page, 'Save strip');
  expect(fileName).toMatch(/^pitch strip 59\.900 lpi at 400 mm\.png$/);

  const { data, info } = await sharp(bytes).greyscale().raw().toBuffer({ resolveWithObject: true });
  const { density } = await sharp(bytes).metadata();
  expect(density).toBe(720);
  // 120 mm of bands with 17 and 7 mm beside them; 5 bands and the phase strip, 8 + 1 mm each, 21 mm more.
  const dots = (lengthMm: number) => Math.round((lengthMm / 25.4) * 720);
  expect(Math.abs(info.width - dots(144))).toBeLessThan(3);
  expect(Math.abs(info.height - dots(75))).toBeLessThan(3);

  for (const [band, bandLpi] of [59.7, 59.8, 59.9, 60, 60.1].entries()) {
    const row = dots(10 + band * 9 + 4);
    const from = row * info.width + dots(17);
    const dark = Float64Array.from(
      data.subarray(from, from + dots(120)),
      (code) => 1 - (code / 255) ** 2.2,
    );
    expect(Math.abs(pitchOfRow(dark, 720, 59.9) - bandLpi)).toBeLessThan(0.003);
  }

  // Scale first: a page fitted to its margins bars the pitch.
  await type(page, 'Bar across', '97 mm');
  await expect(page.getByText('came out at 97 %')).toBeVisible();
  await page.getByRole('combobox', { name: 'Best band' }).selectOption({ label: '60.000' });
  const use = page.getByRole('button', { name: 'Use this pitch' });
  await expect(use).toHaveAttribute('aria-disabled', 'true');
  await type(page, 'Bar across', '100');
  await type(page, 'Bar along', '40');
  await expect(page.getByText('The scale is right')).toBeVisible();

  const stamp = (standing: string) => page.getByText(`Pitch is ${standing}`, { exact: true });
  await expect(stamp('nominal')).toBeVisible();
  await use.click();
  await expect(stamp('proved')).toBeVisible();
  await expect(page.getByText('60 ±').first()).toBeVisible();

  await page.goto('#/weave');
  await page.getByRole('button', { name: 'Weave sheet' }).click();
  await expect(page.getByRole('link', { name: 'Save sheet' })).toBeVisible();
  const sheet = await saved(page, 'Save sheet');
  expect(sheet.fileName).toContain('60.000 lpi at 400 mm');
  expect(sheet.bytes.toString('utf8')).toContain('Woven at 60.0000 LPI (0.423333 mm, proved)');

  // It is there after a reload, and comes back by itself with its lens; a note says so and lets it go.
  await keptAs(page, (job) => job['provedPitch'] !== undefined);
  await page.goto('#/calibrate');
  await page.reload();
  await expect(stamp('proved')).toBeVisible();
  await type(page, 'Lens pitch', '50 lpi');
  await expect(stamp('nominal')).toBeVisible();
  await type(page, 'Lens pitch', '60 lpi');
  await expect(stamp('proved')).toBeVisible();
  await page.getByRole('button', { name: 'Go back to the nominal pitch' }).click();
  await expect(stamp('nominal')).toBeVisible();
  await page.getByRole('button', { name: 'Use that pitch' }).click();
  await expect(stamp('proved')).toBeVisible();
});

test('draws what to look for: more fringes the further the lens is off', async ({ page }) => {
  await opened(page);
  const canvas = page
    .getByRole('list', { name: /Bands through the lens/ })
    .locator('canvas')
    .first();
  const dark = () =>
    canvas.evaluate((element: HTMLCanvasElement) => {
      const pixels = element.getContext('2d')!.getImageData(0, 0, element.width, 1).data;
      let entries = 0;
      for (let x = 4; x < pixels.length; x += 4)
        if (pixels[x]! < 128 && pixels[x - 4]! >= 128) entries += 1;
      return entries;
    });
  const few = await dark();
  await page.getByRole('slider', { name: 'Lens is off by' }).press('End');
  expect(await dark()).toBeGreaterThan(few);
});
