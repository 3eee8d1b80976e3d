/** A person's own frames in the built studio, a small print, and its sheet saved. */
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright/test';
import sharp from 'sharp';
import { expect } from './kept-demo.ts';
import { saved, type } from './page.ts';

/** Twelve flat frames, each a code of its own, so that every dot tells which frames it shows. */
export const greys = Array.from({ length: 12 }, (_, view) => 10 + view * 20);

export const makeFrames = async () => {
  const folder = mkdtempSync(join(tmpdir(), 'tiltloom-e2e-'));
  return Promise.all(
    greys.map(async (grey, view) => {
      const path = join(folder, `step_${view + 1}.png`);
      const background = { r: grey, g: 255 - grey, b: 128 };
      await sharp({ create: { width: 200, height: 250, channels: 3, background } })
        .png()
        .toFile(path);
      return path;
    }),
  );
};

/** A small print, so that a test is quick: 2 × 2.5 in at 720 dpi. */
export const smallPrint = async (page: Page) => {
  await type(page, 'Print width', '2 in');
  await type(page, 'Print height', '2.5 in');
};

export const openStudio = async (page: Page, bench = 'weave') => {
  await page.goto(`./#/${bench}`);
  await expect(page.getByText('12 for 12 slots')).toBeVisible();
};

export const addOwnFrames = async (page: Page) => {
  await openStudio(page, 'frames');
  await page.getByRole('button', { name: 'Remove all' }).click();
  await page
    .locator('input[type=file]')
    .first()
    .setInputFiles(await makeFrames());
  await expect(page.getByText('step_12.png').first()).toBeVisible();
  await expect(page.getByText('12 for 12 slots')).toBeVisible();
};

export const weaveAndSave = async (page: Page) => {
  await page.goto('./#/weave');
  await page.getByRole('button', { name: 'Weave sheet' }).click();
  const { bytes, fileName } = await saved(page, 'Save sheet');
  return { file: bytes, name: fileName };
};
