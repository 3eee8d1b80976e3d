/** The Frames bench in a real browser: arrivals of every kind, order, slots, and what a reload keeps. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { strToU8, zipSync } from 'fflate';
import type { Page, TestInfo } from 'playwright/test';
import sharp from 'sharp';
import { axeFaults } from './support/axe.ts';
import { dimExr } from './support/dim-exr.ts';
import { expect, test } from './support/kept-demo.ts';
import { filesIn, keptAs, showPart, type } from './support/page.ts';

/** A flat picture whose colour tells its number. */
const picture = (number: number, width = 120, height = 150) =>
  sharp({
    create: { width, height, channels: 3, background: { r: 20 * number, g: 90, b: 160 } },
  });
const png = async (number: number, width?: number, height?: number) =>
  picture(number, width, height).png().toBuffer();
const file = (name: string, buffer: Buffer) => ({ name, mimeType: '', buffer });
const poses = (...numbers: number[]) =>
  Promise.all(
    numbers.map(async (number) =>
      file(`pose_${String(number).padStart(2, '0')}.png`, await png(number)),
    ),
  );

/** Red, 0 … 255, in the middle of a frame's thumbnail. */
const shownLevel = (page: Page, row: number): Promise<number> =>
  rows(page)
    .nth(row)
    .locator('img')
    .evaluate(async (element) => {
      const image = element as HTMLImageElement;
      // Another thumbnail may take its place meanwhile: then it is asked for again.
      if (
        !(await image.decode().then(
          () => true,
          () => false,
        ))
      )
        return NaN;
      const canvas = new OffscreenCanvas(1, 1);
      const context = canvas.getContext('2d');
      context?.drawImage(image, -image.naturalWidth / 2, -image.naturalHeight / 2);
      return context?.getImageData(0, 0, 1, 1).data[0] ?? 0;
    });

const list = (page: Page) => page.getByRole('grid', { name: 'Frames in order' });
const rows = (page: Page) => list(page).getByRole('row');
const names = async (page: Page): Promise<string[]> =>
  (
    await rows(page).evaluateAll((all) => all.map((row) => row.getAttribute('aria-label') ?? ''))
  ).map((label) => label.replace(/^\d+, /, ''));
const add = (page: Page, files: Parameters<ReturnType<Page['getByLabel']>['setInputFiles']>[0]) =>
  page.locator('input[aria-label="Add frames"]').setInputFiles(files);
const notes = (page: Page) =>
  page.locator('section', {
    has: page.getByRole('heading', { name: 'Worth knowing', exact: true }),
  });

/** Past the demo, with nothing in the list. */
const emptied = async (page: Page) => {
  await page.goto('#/frames');
  await expect(rows(page)).toHaveCount(12);
  await page.getByRole('button', { name: 'Remove all' }).click();
  await expect(page.getByText('Drop frames here')).toBeVisible();
};

/** A real drop of files and folders from the disk. */
const dropFromDisk = async (page: Page, paths: string[]) => {
  const session = await page.context().newCDPSession(page);
  const at = { x: 700, y: 400, data: { items: [], files: paths, dragOperationsMask: 1 } };
  await session.send('Input.dispatchDragEvent', { type: 'dragEnter', ...at });
  await session.send('Input.dispatchDragEvent', { type: 'dragOver', ...at });
  await expect(page.getByText('Let go to add frames')).toBeVisible();
  await session.send('Input.dispatchDragEvent', { type: 'drop', ...at });
  await expect(page.getByText('Let go to add frames')).toHaveCount(0);
};

const onDisk = async (info: TestInfo, files: Record<string, Buffer>) => {
  for (const [path, content] of Object.entries(files)) {
    mkdirSync(dirname(info.outputPath(path)), { recursive: true });
    writeFileSync(info.outputPath(path), content);
  }
};

test('puts files in natural order, names a gap and a broken file, and keeps the good ones', async ({
  page,
}) => {
  await emptied(page);
  await add(page, [
    ...(await poses(10, 2, 1)),
    file('pose_03.png', (await png(3)).subarray(0, 60)),
    file('notes.txt', Buffer.from('low tide at noon')),
  ]);
  await expect(rows(page)).toHaveCount(3);
  expect(await names(page)).toEqual(['pose_01.png', 'pose_02.png', 'pose_10.png']);
  await expect(notes(page)).toContainText(/pose_03\.png.* is damaged/);
  await expect(notes(page)).toContainText('notes.txt: It is not a picture');
  await expect(notes(page)).toContainText(
    'Frames 03 to 09 are missing between pose_02.png and pose_10.png.',
  );
  await notes(page).getByRole('button', { name: 'Dismiss all' }).click();
  await expect(notes(page)).not.toContainText('notes.txt');
  // The gap is not dismissed: it is still there, until its frames come.
  await add(page, await poses(3, 4, 5, 6, 7, 8, 9));
  await expect(rows(page)).toHaveCount(10);
  await expect(notes(page)).toHaveCount(0);
});

test('reads what browsers read and 16-bit PNG, turns a JPEG as its EXIF says, and names mixed shapes', async ({
  page,
}) => {
  await emptied(page);
  const upright = picture(5, 150, 120).withMetadata({ orientation: 6 });
  await add(page, [
    file('a_1.jpg', await upright.jpeg().toBuffer()),
    file('a_2.webp', await picture(2).webp().toBuffer()),
    file('a_3.avif', await picture(3).avif().toBuffer()),
    file('a_4.png', await picture(5).toColourspace('rgb16').png().toBuffer()),
    file('a_5.png', await png(6, 200, 100)),
  ]);
  await expect(rows(page)).toHaveCount(5);
  await expect(rows(page).nth(0)).toContainText('120 × 150');
  await expect(rows(page).nth(3)).toContainText('16 bit');
  await expect(notes(page)).toContainText('a_5.png is 200 × 100 px, another shape');
  await expect(page.getByRole('radiogroup', { name: 'Picture shape' })).toBeVisible();
});

test('shows what is clear in a picture as clear, over checkers: a white title is seen', async ({
  page,
}) => {
  await emptied(page);
  const flat = (width: number, height: number, alpha: number) =>
    sharp({
      create: { width, height, channels: 4, background: `rgba(255, 255, 255, ${alpha})` },
    }).png();
  const input = await flat(60, 30, 1).toBuffer();
  const buffer = await flat(120, 150, 0).composite([{ input }]).toBuffer();
  await add(page, [file('title.png', buffer)]);
  const image = rows(page).first().locator('img');
  await expect(image).toBeVisible();
  const alphaAt = (across: number, down: number) =>
    image.evaluate(
      (element, [x = 0, y = 0]) => {
        const picture = element as HTMLImageElement;
        const [width, height] = [picture.naturalWidth, picture.naturalHeight];
        const context = new OffscreenCanvas(width, height).getContext('2d');
        context?.drawImage(picture, 0, 0);
        return context?.getImageData(x * width, y * height, 1, 1).data[3];
      },
      [across, down],
    );
  expect(await alphaAt(0.5, 0.5)).toBe(255);
  expect(await alphaAt(0.1, 0.1)).toBe(0);
  await expect(image).toHaveCSS('background-image', /conic-gradient/);
});

test('reads TIFF and OpenEXR, and exposes scene light', async ({ page }) => {
  await emptied(page);
  await add(page, [
    file('a_1.tif', await picture(4).tiff().toBuffer()),
    file('a_2.exr', dimExr(120, 150)),
  ]);
  await expect(rows(page)).toHaveCount(2);
  await expect(rows(page).nth(0)).toContainText('TIFF');
  await expect(rows(page).nth(1)).toContainText('OpenEXR');
  const before = await shownLevel(page, 1);
  await page.getByRole('slider', { name: 'Exposure' }).fill('2');
  // Linear 0.05 and 0.2 are sRGB codes 63 and 124 (IEC 61966-2-1), so the gain is near 2.
  await expect.poll(async () => (await shownLevel(page, 1)) / before).toBeCloseTo(124 / 63, 1);
});

test('opens a zip, quietly leaving litter aside', async ({ page }) => {
  await emptied(page);
  const zip = zipSync({
    'set/pose_2.png': await png(2),
    'set/pose_1.png': await png(1),
    '__MACOSX/set/._pose_1.png': strToU8('litter'),
    'set/.DS_Store': strToU8('litter'),
  });
  await add(page, [file('set.zip', Buffer.from(zip))]);
  await expect(rows(page)).toHaveCount(2);
  expect(await names(page)).toEqual(['pose_1.png', 'pose_2.png']);
  await expect(notes(page)).toHaveCount(0);
});

test('takes a dropped folder with folders in it', async ({ page }, info) => {
  await emptied(page);
  await onDisk(info, {
    'drop/near/pose_2.png': await png(2),
    'drop/near/pose_1.png': await png(1),
    'drop/far/pose_1.png': await png(3),
    'drop/far/Thumbs.db': Buffer.from('litter'),
  });
  await dropFromDisk(page, [info.outputPath('drop')]);
  await expect(rows(page)).toHaveCount(3);
  expect(await names(page)).toEqual(['far/pose_1.png', 'near/pose_1.png', 'near/pose_2.png']);
});

test('reorders and removes by keyboard, reverses, and undoes all of it', async ({ page }) => {
  await emptied(page);
  await add(page, await poses(1, 2, 3, 4));
  await expect(rows(page)).toHaveCount(4);
  await rows(page).nth(0).click();
  await page.keyboard.press('Alt+ArrowRight');
  await expect
    .poll(() => names(page))
    .toEqual(['pose_02.png', 'pose_01.png', 'pose_03.png', 'pose_04.png']);
  await page.keyboard.press('Alt+ArrowRight');
  await page.keyboard.press('Alt+ArrowRight');
  await expect.poll(async () => (await names(page)).at(-1)).toBe('pose_01.png');
  await expect(page.getByText('pose_01.png is now 4 of 4.')).toBeAttached();
  await page.keyboard.press('Delete');
  await expect(rows(page)).toHaveCount(3);
  await page.getByRole('button', { name: 'Reverse order' }).click();
  await expect.poll(() => names(page)).toEqual(['pose_04.png', 'pose_03.png', 'pose_02.png']);
  for (let step = 0; step < 5; step++) await page.keyboard.press('Control+z');
  await expect
    .poll(() => names(page))
    .toEqual(['pose_01.png', 'pose_02.png', 'pose_03.png', 'pose_04.png']);
});

test('reorders by dragging, and fills a slot by dragging onto it', async ({ page }) => {
  await emptied(page);
  await add(page, await poses(1, 2, 3));
  await expect(rows(page)).toHaveCount(3);
  const last = await rows(page).nth(2).boundingBox();
  if (last === null) throw new Error('The last frame is not on the page.');
  await rows(page)
    .nth(0)
    .dragTo(rows(page).nth(2), { targetPosition: { x: last.width - 4, y: last.height / 2 } });
  await expect.poll(() => names(page)).toEqual(['pose_02.png', 'pose_03.png', 'pose_01.png']);
  const second = page.getByRole('group', { name: 'View slot 2', exact: true });
  await page.evaluate(() => scrollTo(0, 500)); // Both in sight: the page must not move.
  await rows(page).nth(2).dragTo(second);
  await expect(
    page.getByRole('radio', { name: 'Slot 2: pose_01.png, chosen by hand' }),
  ).toBeChecked();
  await page.getByRole('button', { name: 'Spread evenly again' }).click();
  await expect(page.getByRole('radio', { name: 'Slot 2: pose_02.png' })).toBeAttached();
});

test('fills a slot by keyboard', async ({ page }) => {
  await emptied(page);
  await add(page, await poses(1, 2));
  await expect(rows(page)).toHaveCount(2);
  await page.getByRole('radio', { name: 'Slot 1: pose_01.png' }).focus();
  await page.keyboard.press('ArrowRight');
  await page
    .getByRole('combobox', { name: 'Frame in slot 2' })
    .selectOption({ label: '2 · pose_02.png' });
  await expect(
    page.getByRole('radio', { name: 'Slot 2: pose_02.png, chosen by hand' }),
  ).toBeChecked();
  await expect(rows(page).nth(1)).toContainText('slots 2, 7–12');
});

test('keeps frames, their order and their thumbnails over a reload', async ({ page }) => {
  await emptied(page);
  await add(page, await poses(1, 2, 3));
  await expect(rows(page)).toHaveCount(3);
  await page.getByRole('button', { name: 'Reverse order' }).click();
  await expect.poll(() => filesIn(page, 'frames')).toBeGreaterThanOrEqual(6);
  await keptAs(page, ({ frames }) => frames[0]?.name === 'pose_03.png' && frames.length === 3);
  await page.reload();
  await expect(rows(page)).toHaveCount(3);
  expect(await names(page)).toEqual(['pose_03.png', 'pose_02.png', 'pose_01.png']);
  await expect(rows(page).locator('img')).toHaveCount(3);
  await expect
    .poll(() =>
      rows(page)
        .locator('img')
        .evaluateAll((all) => all.every((one) => (one as HTMLImageElement).naturalWidth > 0)),
    )
    .toBe(true);
  await expect(notes(page)).toHaveCount(0);
});

test('opens a demo beside work, which stays whole under Jobs @wider', async ({ page }) => {
  await emptied(page);
  await add(page, await poses(1, 2));
  await expect(rows(page)).toHaveCount(2);
  await type(page, 'Job name', 'Terrace');
  await showPart(page, 'Demos');
  await page.getByRole('button', { name: 'Open The old glasshouse' }).click();
  await expect(rows(page)).toHaveCount(12);
  await expect(page.getByText('Demo, to look at')).toBeVisible();
  await page.getByRole('button', { name: 'Jobs', exact: true }).click();
  await page.getByRole('button', { name: 'Open Terrace' }).click();
  await expect(rows(page)).toHaveCount(2);
  expect(await names(page)).toEqual(['pose_01.png', 'pose_02.png']);
});

test('has nothing that an accessibility checker objects to', async ({ page }) => {
  await emptied(page);
  await add(page, [...(await poses(1, 2, 4)), file('odd.png', await png(4, 300, 100))]);
  await expect(rows(page)).toHaveCount(4);
  expect(await axeFaults(page)).toEqual([]);
});
