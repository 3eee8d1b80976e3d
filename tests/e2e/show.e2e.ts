/** The print as it turns, saved to show to someone: a page that needs nothing but itself, and a clip. */
import { readFile } from 'node:fs/promises';
import type { Page } from 'playwright/test';
import sharp from 'sharp';
import { expect, test } from './support/kept-demo.ts';
import { unfold } from './support/page.ts';

const saveAs = async (page: Page, as: 'page' | 'clip') => {
  await page.goto('./#/weave');
  await expect(page.getByText('12 for 12 slots')).toBeVisible();
  await unfold(page, 'Show it to someone');
  await page.getByLabel('Longest side').selectOption('640');
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: `Save as a ${as}` }).click(),
  ]);
  await expect(page.getByText(/^Saved as “/)).toBeVisible();
  return { name: download.suggestedFilename(), bytes: await readFile(await download.path()) };
};

test('a page turns the print by itself: no network, slider and drag, the trimmed print', async ({
  page,
  context,
}) => {
  const { name, bytes } = await saveAs(page, 'page');
  expect(name).toMatch(/ to show\.html$/);
  const shown = await context.newPage();
  const asked: string[] = [];
  shown.on('request', (request) => asked.push(request.url()));
  const errors: string[] = [];
  shown.on('pageerror', ({ message }) => errors.push(message));
  await shown.setContent(bytes.toString('utf8'));
  const print = shown.getByRole('img', { name: /The print as it turns/ });
  const picture = async () => {
    const source = (await print.getAttribute('src')) ?? '';
    return Buffer.from(source.slice(source.indexOf(',') + 1), 'base64');
  };
  const ahead = await picture();
  // 8 by 10 inches: the longer side is as long as was chosen.
  expect(await sharp(ahead).metadata()).toMatchObject({ format: 'jpeg', width: 512, height: 640 });
  const tilt = shown.getByRole('slider', { name: 'Tilt' });
  await tilt.fill('0');
  const left = await picture();
  expect(left.equals(ahead)).toBe(false);
  await tilt.press('End');
  const right = await picture();
  expect(right.equals(left)).toBe(false);
  // A drag over the whole print goes from one end to the other.
  const box = await print.boundingBox();
  if (box === null) throw new Error('The print is not there.');
  const [y, first] = [box.y + box.height / 2, box.x + 2];
  await shown.mouse.move(box.x + box.width - 2, y);
  await shown.mouse.down();
  await shown.mouse.move(first - 5, y, { steps: 5 });
  await shown.mouse.up();
  expect((await picture()).equals(left)).toBe(true);
  expect(asked.filter((address) => !address.startsWith('data:'))).toEqual([]);
  expect(errors).toEqual([]);
  await expect(shown.getByText(/Strong depth strains the eyes/)).toBeVisible();
});

test('a clip goes there and back once, no faster than three flashes a second', async ({
  page,
  context,
}) => {
  const { name, bytes } = await saveAs(page, 'clip');
  expect(name).toMatch(/ to show\.(mp4|webm)$/);
  // On a page without the studio's policy, which forbids films.
  const elsewhere = await context.newPage();
  const facts = await elsewhere.evaluate(
    async (address) => {
      const video = document.createElement('video');
      video.src = address;
      await new Promise((resolve, reject) => {
        video.addEventListener('loadeddata', resolve);
        video.addEventListener('error', () => reject(new Error(video.error?.message)));
      });
      return { width: video.videoWidth, height: video.videoHeight, seconds: video.duration };
    },
    `data:video/${name.endsWith('.mp4') ? 'mp4' : 'webm'};base64,${bytes.toString('base64')}`,
  );
  expect(facts).toMatchObject({ width: 512, height: 640 });
  // Twelve views there and twelve back. Were every other one black, a flash would take two of them: three a second
  // is at most six views a second where the sway is fastest, which is π / 2 of its mean.
  expect(facts.seconds).toBeGreaterThan((24 / 6) * (Math.PI / 2));
  expect(facts.seconds).toBeLessThan(12);
});
