/**
 * Reading pictures in a real browser: a photo of a strip under its lens, made by the ray-traced bench,
 * proves the pitch; a simulated scan of a bare lens centres the strip.
 */
import type { Page } from 'playwright/test';
import sharp from 'sharp';
import { viewingPitch } from '../../src/core/lens/traced.ts';
import { mm } from '../../src/core/units/units.ts';
import { scanLens } from '../golden/lens-scan.ts';
import { plainScene } from '../golden/strip-photo-scene.ts';
import { takePhoto } from '../golden/strip-photo.ts';
import { axeFaults } from './support/axe.ts';
import { expect, test } from './support/kept-demo.ts';
import { field, showPart, type } from './support/page.ts';
import { benchGapAhead } from '../golden/traced-by-bench.ts';

const opened = async (page: Page) => {
  await page.goto('#/calibrate');
  await expect(field(page, 'Strip centre')).toBeVisible();
};
const choose = async (page: Page, input: string, name: string, bytes: Buffer) => {
  await page.locator(`input[type=file][aria-label="${input}"]`).setInputFiles({
    name,
    mimeType: name.endsWith('jpg') ? 'image/jpeg' : 'image/png',
    buffer: bytes,
  });
};

test('proves the pitch by a photo', async ({ page }) => {
  await opened(page);
  await type(page, 'Print width', '60 mm');
  await type(page, 'Print height', '40 mm');
  await type(page, 'Lens thickness', '0.84 mm');
  await type(page, 'Refractive index', '1.57');
  await type(page, 'Strip centre', '59.9 lpi');
  await type(page, 'Strip spread', '0.4');
  await type(page, 'Bands', '5');
  const lens = { pitchMm: mm(25.4 / 60.07), thicknessMm: mm(0.84), index: 1.57 };
  const spec = {
    acrossDpi: 720,
    alongDpi: 720,
    ribs: 'upright',
    bandsLpi: [59.5, 59.7, 59.9, 60.1, 60.3],
    bandDots: 1701,
    lensLpi: 60,
    readFromMm: 400,
    barsIn: 'mm',
  } as const;
  const photo = await takePhoto({
    ...plainScene(spec, { ...lens, radiusMm: (0.84 * 0.57) / 1.57 }),
    widthPx: 1200,
    heightPx: 1200,
    skewRad: 0.002,
    offAxisRad: 0.1,
  });
  const { widthPx: width, heightPx: height, data } = photo;
  // As a telephone held on its side keeps it: turned in the file, and EXIF (orientation 6: turn it
  // clockwise to see it) saying so.
  const jpeg = await sharp(data, { raw: { width, height, channels: 4 } })
    .removeAlpha()
    .rotate(-90)
    .withMetadata({ orientation: 6 })
    .jpeg({ quality: 90 })
    .toBuffer();
  expect(await sharp(jpeg).metadata()).toMatchObject({
    width: height,
    height: width,
    orientation: 6,
  });
  await page.getByText('Or photograph it').click();
  await choose(page, 'Choose a photo', 'strip.jpg', jpeg);
  await expect(page.getByText('Woven pitch, by the photo')).toBeVisible();
  await expect(page.getByRole('button', { name: /^Corner mark/ })).toHaveCount(4);
  // Corners lie upright over the picture as it is shown.
  const nearTo = async (mark: string, { xPx, yPx }: (typeof photo.corners)[number]) => {
    const name = await page
      .getByRole('button', { name: `Corner mark ${mark}` })
      .getAttribute('aria-label');
    const [, x, y] = /at (\d+), (\d+)/.exec(name ?? '') ?? [];
    expect(Math.hypot(Number(x) - xPx, Number(y) - yPx)).toBeLessThan(0.01 * width);
  };
  await nearTo('top left', photo.corners[0]!);
  await nearTo('bottom right', photo.corners[2]!);
  // The scene's 0.002 radians are 0.115°.
  const skew = await page.getByText(/turn the print [\d.]+° clockwise/).textContent();
  expect(Math.abs(Number(/turn the print ([\d.]+)°/.exec(skew ?? '')?.[1]) - 0.115)).toBeLessThan(
    0.03,
  );
  expect(await axeFaults(page)).toEqual([]);

  await page.getByRole('button', { name: 'Use this pitch' }).click();
  await expect(page.getByText('Pitch is proved', { exact: true })).toBeVisible();
  const told = await page.getByText(/LPI is on the job sheet/).textContent();
  const truth = 25.4 / viewingPitch(lens, mm(400));
  expect(Math.abs(Number(/[\d.]+/.exec(told ?? '')?.[0]) - truth)).toBeLessThan(0.03);
  await expect(page.getByRole('cell', { name: /^photo, lens 0\.1\d* ±/ })).toBeVisible();
});

test('centres the strip by a scan of the bare lens', async ({ page }) => {
  await opened(page);
  await showPart(page, 'Everything');
  const [width, height] = [1200, 400];
  const grey = scanLens({
    seed: 3,
    dpi: 600,
    lensLpi: 60.3,
    widthPx: width,
    heightPx: height,
    tiltRad: 0.01,
    lamps: 2,
    noise: 0.02,
  });
  const png = await sharp(grey, { raw: { width, height, channels: 1 } })
    .withMetadata({ density: 600 })
    .png()
    .toBuffer();
  await choose(page, 'Choose a scan', 'lens.png', png);
  await expect(page.getByText('Lens pitch, by the scan')).toBeVisible();
  await expect(field(page, 'Scan density')).toHaveValue('600');
  expect(await axeFaults(page)).toEqual([]);
  await page.getByRole('button', { name: 'Centre the strip on it' }).click();
  const thickness = Number(await field(page, 'Lens thickness').inputValue());
  const index = Number(await field(page, 'Refractive index').inputValue());
  // Relation 2: LPI / (1 + g₀ / D), read from 400 mm; g₀ by the bench’s own trace, in focus.
  const lensSheet = { pitchMm: 25.4 / 60, thicknessMm: thickness, index };
  const radiusMm = (thickness * (index - 1)) / index;
  const expected = 60.3 / (1 + benchGapAhead({ ...lensSheet, radiusMm }) / 400);
  const centre = Number(await field(page, 'Strip centre').inputValue());
  expect(Math.abs(centre - expected)).toBeLessThan(0.02);
});
