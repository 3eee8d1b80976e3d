/**
 * Clips: their frames come out exactly, each told by the number drawn in it. MP4, MOV and WebM by ffmpeg (clips/make-clips.mjs),
 * GIF and animated WebP by libvips.
 */
import { readFile } from 'node:fs/promises';
import type { Page } from 'playwright/test';
import sharp from 'sharp';
import { expect, test } from './support/kept-demo.ts';
import { type } from './support/page.ts';

const clip = async (name: string) => ({
  name,
  mimeType: '',
  buffer: await readFile(new URL(`clips/${name}`, import.meta.url)),
});

/** Twenty frames whose left half is as bright as ten times their number. */
const animation = async (format: 'gif' | 'webp') => {
  const [width, height, count] = [64, 40, 20];
  const data = Buffer.alloc(width * height * count * 3);
  for (let n = 0; n < count; n += 1)
    for (let at = 0; at < width * height; at += 1)
      if (at % width < width / 2)
        data.fill(10 * n, (n * width * height + at) * 3, (n * width * height + at + 1) * 3);
  const frames = sharp(data, {
    raw: { width, height: height * count, channels: 3, pageHeight: height },
  });
  const buffer = await (
    format === 'gif'
      ? frames.gif({ delay: 100 })
      : frames.webp({ delay: Array<number>(count).fill(100), lossless: true })
  ).toBuffer();
  return { name: `kingfisher.${format}`, mimeType: '', buffer };
};

const add = async (page: Page, file: { name: string; mimeType: string; buffer: Buffer }) => {
  await page.goto('./#/frames');
  await page.getByRole('button', { name: 'Remove all' }).click();
  await page.getByLabel('Add frames', { exact: true }).first().setInputFiles(file);
  await expect(page.getByRole('heading', { name: `Clip: ${file.name}` })).toBeVisible();
};

const toTake = (page: Page) => page.getByRole('textbox', { name: 'Frames to take' });

const take = async (page: Page, count: number) => {
  await page.getByRole('button', { name: `Take ${count} frames` }).click();
  await expect(page.getByRole('heading', { name: `Sequence: ${count} frames` })).toBeVisible();
  await expect(page.getByRole('heading', { name: /^Clip:/ })).toHaveCount(0);
};

/** Of each kept picture of this size, thumbnails among them: how bright the places are, 0 … 255. */
const kept = (
  page: Page,
  width: number,
  height: number,
  places: readonly (readonly [number, number])[],
) =>
  page.evaluate(
    async ({ size, at }) => {
      const disk = await navigator.storage.getDirectory();
      const folder = await disk.getDirectoryHandle('frames');
      const found: number[][] = [];
      for await (const entry of folder.values()) {
        if (entry.kind !== 'file') continue;
        // One that is still being written lies there under another name, and is soon gone.
        const picture = await (entry as FileSystemFileHandle)
          .getFile()
          .then(createImageBitmap)
          .catch(() => undefined);
        if (picture === undefined) continue;
        if (picture.width !== size[0] || picture.height !== size[1]) continue;
        const canvas = new OffscreenCanvas(picture.width, picture.height).getContext('2d');
        canvas?.drawImage(picture, 0, 0);
        found.push(at.map(([x, y]) => canvas?.getImageData(x, y, 1, 1).data[0] ?? -1));
      }
      return found;
    },
    { size: [width, height], at: places },
  );

const rising = (numbers: readonly number[]) => [...new Set(numbers)].sort((a, b) => a - b);

const numbersOf = (pictures: readonly (readonly number[])[]): number[] =>
  rising(
    pictures.map((blocks) =>
      blocks.reduce((sum, light, bit) => sum + (light > 128 ? 2 ** bit : 0), 0),
    ),
  );

const across = Array.from({ length: 8 }, (_, bit) => [bit * 40 + 20, 120] as const);
/** Turned anticlockwise by a quarter, as ffmpeg shows it: what was left is at the foot. */
const upwards = Array.from({ length: 8 }, (_, bit) => [120, 319 - (bit * 40 + 20)] as const);

for (const { name, size, places } of [
  { name: 'lighthouse.mp4', size: [320, 200], places: across },
  { name: 'turned.mov', size: [200, 320], places: upwards },
  { name: 'lighthouse.webm', size: [320, 200], places: across },
] as const)
  test(`a clip gives the very frames that were chosen, turned as it says: ${name}`, async ({
    page,
  }) => {
    await add(page, await clip(name));
    await expect(
      page.getByText(new RegExp(`^${size[0]} × ${size[1]} pixels, 40 frames`)),
    ).toBeVisible();
    // As many as the job has view slots, the first and the last among them.
    await expect(toTake(page)).toHaveValue('1, 5, 8, 12, 15, 19, 22, 26, 29, 33, 36, 40');
    await type(page, 'Frames to take', '4 11-13, 40 2');
    await expect(toTake(page)).toHaveValue('2, 4, 11, 12, 13, 40');
    await take(page, 6);
    await expect
      .poll(async () => numbersOf(await kept(page, size[0], size[1], places)))
      .toEqual([1, 3, 10, 11, 12, 39]);
  });

for (const format of ['gif', 'webp'] as const)
  test(`an animation gives the very frames of a stretch: ${format}`, async ({ page }) => {
    await add(page, await animation(format));
    await type(page, 'First frame', '6');
    await type(page, 'Last frame', '18');
    await type(page, 'How many', '5');
    await expect(toTake(page)).toHaveValue('6, 9, 12, 15, 18');
    await take(page, 5);
    await expect
      .poll(async () => rising((await kept(page, 64, 40, [[10, 20]])).flat()))
      .toEqual([50, 80, 110, 140, 170]);
  });

test('a clip that cannot be read is named, and what is typed wrong is said', async ({ page }) => {
  const whole = await clip('lighthouse.mp4');
  await add(page, { ...whole, name: 'cut.mp4', buffer: whole.buffer.subarray(0, 900) });
  await expect(page.getByText('The clip could not be read')).toBeVisible();
  await expect(page.getByText(/cut\.mp4.*it broke off as it was copied/)).toBeVisible();
  await page.getByRole('button', { name: 'Leave the clip' }).click();
  await expect(page.getByRole('heading', { name: /^Clip:/ })).toHaveCount(0);
  const { buffer, ...rest } = await animation('gif');
  await page
    .getByLabel('Add frames', { exact: true })
    .first()
    .setInputFiles({ ...rest, buffer: buffer.subarray(0, 40) });
  await expect(page.getByText(/kingfisher\.gif.*is damaged/)).toBeVisible();
  await page.getByRole('button', { name: 'Leave the clip' }).click();
  await page.getByLabel('Add frames', { exact: true }).first().setInputFiles(whole);
  await type(page, 'Frames to take', '3, 41');
  await expect(
    page.getByText('The frames of this clip are 1 to 40; “41” is not among them.'),
  ).toBeVisible();
});
