/** Files that go from under the studio: a person's own before it is copied, the copy, and what was prepared. */
import { rm, writeFile } from 'node:fs/promises';
import type { Page } from 'playwright/test';
import sharp from 'sharp';
import { expect, test } from './support/kept-demo.ts';
import { type } from './support/page.ts';

/** Large enough that what is prepared of it goes to the private disk. */
const picture = (number: number) =>
  sharp({
    create: { width: 640, height: 3200, channels: 3, background: { r: 70 * number, g: 9, b: 16 } },
  })
    .png({ compressionLevel: 1 })
    .toBuffer();

const rows = (page: Page) => page.getByRole('grid', { name: 'Frames in order' }).getByRole('row');
const add = (page: Page, paths: string | string[]) =>
  page.locator('input[aria-label="Add frames"]').setInputFiles(paths);
const press = (page: Page) => page.getByRole('button', { name: 'Weave sheet' }).click();
const link = (page: Page) => page.getByRole('link', { name: 'Save sheet' });

/** Takes away files of a folder of the private disk whose name fits; how many there were. */
const clear = (page: Page, folder: string, pattern: string) =>
  page.evaluate(
    async ([name = '', fits = '']) => {
      const root = await navigator.storage.getDirectory();
      const place = await root.getDirectoryHandle(name);
      const names: string[] = [];
      for await (const one of place.keys()) if (new RegExp(fits).test(one)) names.push(one);
      for (const one of names) await place.removeEntry(one);
      return names.length;
    },
    [folder, pattern],
  );

test('a frame whose file goes is named, the others stay, and the same file brings it back @wider', async ({
  page,
}, testInfo) => {
  await page.addInitScript(() => {
    const own = FileSystemFileHandle.prototype.createWritable;
    const held = new Promise<void>((resolve) => Object.assign(globalThis, { letCopy: resolve }));
    FileSystemFileHandle.prototype.createWritable = async function (...given) {
      await held;
      return own.apply(this, given);
    };
  });
  await page.goto('./#/frames');
  await expect(rows(page)).toHaveCount(12);
  await page.getByRole('button', { name: 'Remove all' }).click();
  await type(page, 'Print height', '40 in');
  await type(page, 'Dots across', '200');
  await type(page, 'Dots along', '100');
  const paths = [1, 2, 3].map((number) => testInfo.outputPath(`pose_${number}.png`));
  for (const [index, path] of paths.entries()) await writeFile(path, await picture(index + 1));
  await add(page, paths);
  await expect(page.getByText('3 for 12 slots')).toBeVisible();

  await test.step('the file goes before it is copied', async () => {
    await rm(paths[1] as string);
    await page.evaluate(() => (globalThis as unknown as { letCopy(): void }).letCopy());
    await expect(
      page.getByRole('main').getByText(/"pose_2.png" can no longer be read: .* before the studio/),
    ).toBeVisible();
    await expect(rows(page)).toHaveCount(3);
    await expect(rows(page).filter({ hasText: 'original missing' })).toHaveCount(1);
    await expect(rows(page).nth(1)).toContainText('original missing');
  });

  await test.step('no sheet is woven without it', async () => {
    await page.goto('./#/weave');
    await type(page, 'Print width', '7 in');
    await press(page);
    await expect(page.getByText('The sheet was not woven')).toBeVisible();
    await expect(page.getByRole('status').getByText('"pose_2.png" can no longer')).toBeVisible();
    await expect(link(page)).toHaveCount(0);
  });

  await test.step('the same file brings it back', async () => {
    await writeFile(paths[1] as string, await picture(2));
    await page.goto('./#/frames');
    await add(page, paths[1] as string);
    await expect(page.getByText('original missing')).toHaveCount(0);
    await expect(page.getByText('can no longer be read')).toHaveCount(0);
    await expect(rows(page)).toHaveCount(3);
    await page.goto('./#/weave');
    await type(page, 'Print width', '8 in');
    await press(page);
    await expect(link(page)).toBeVisible();
  });

  await test.step('what was prepared goes from the private disk, and is prepared again', async () => {
    expect(await clear(page, 'prepared', '')).toBeGreaterThanOrEqual(3);
    await press(page);
    await expect(link(page)).toHaveCount(0);
    await expect(link(page)).toBeVisible();
  });

  await test.step('the copies go too: every frame is named, none is taken out', async () => {
    expect(await clear(page, 'frames', '(?<!thumbnail)$')).toBe(15); // The demo's twelve among them.
    await type(page, 'Print width', '7 in');
    await press(page);
    await expect(page.getByText('The sheet was not woven')).toBeVisible();
    for (const name of ['pose_1', 'pose_2', 'pose_3'])
      await expect(page.getByRole('status').getByText(`"${name}.png" can no`)).toBeVisible();
    await page.goto('./#/frames');
    await expect(rows(page).filter({ hasText: 'original missing' })).toHaveCount(3);
    await add(page, paths);
    await expect(page.getByText('original missing')).toHaveCount(0);
    await expect(rows(page)).toHaveCount(3);
    await page.goto('./#/weave');
    await press(page);
    await expect(link(page)).toBeVisible();
  });
});
