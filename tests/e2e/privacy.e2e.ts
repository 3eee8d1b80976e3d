/** The first visit in the built studio: nothing leaves the machine. And what comes in by name is never markup. */
import { readFileSync } from 'node:fs';
import type { Page } from 'playwright/test';
import { test as firstVisit } from './support/any-visit.ts';
import sharp from 'sharp';
import { expect, test } from './support/kept-demo.ts';
import { makeFrames, openStudio, smallPrint, weaveAndSave } from './support/own-frames.ts';
import { type } from './support/page.ts';

/** Whatever leaves the studio's own address, and whatever its policy refuses, in page and workers. */
const watchPrivacy = (page: Page, baseURL: string | undefined) => {
  const { origin } = new URL(baseURL ?? '');
  const asked: string[] = [];
  const refused: string[] = [];
  page.context().on('request', (request) => asked.push(request.url()));
  page.on('console', (message) => {
    if (message.text().includes('Content Security Policy')) refused.push(message.text());
  });
  return {
    count: () => asked.length,
    outside: () =>
      asked.filter((url) => !url.startsWith(`${origin}/`) && !/^(blob|data):/.test(url)),
    refused: () => refused,
  };
};

firstVisit(
  'the first visit opens the glasshouse, ready to tilt and weave, and nothing leaves the machine',
  async ({ page, baseURL }) => {
    const privacy = watchPrivacy(page, baseURL);
    const errors: string[] = [];
    page.on('pageerror', (error) => errors.push(error.message));
    const opened = await page.goto('./');
    const header = opened?.headers()['content-security-policy'] ?? '';
    expect(header).toContain("default-src 'none'");
    const inPage = page.locator('meta[http-equiv="Content-Security-Policy"]').first();
    expect(header).toContain(await inPage.getAttribute('content'));
    await expect(page.getByLabel('Tilt', { exact: true })).toBeVisible();
    await expect(page.getByText('12 for 12 slots')).toBeVisible();
    await smallPrint(page);
    const { file, name } = await weaveAndSave(page);
    expect(name).toMatch(/^My copy of The old glasshouse 59\.9\d+ lpi at 400 mm\.png$/);
    const facts = await sharp(file).metadata();
    expect(facts).toMatchObject({ format: 'png', width: 1440, height: 1800, density: 720 });
    // Every bench, with all that it loads.
    for (const bench of ['plan', 'shoot', 'calibrate', 'frames', 'mount', 'mend']) {
      await page.goto(`./#/${bench}`);
      await expect(page.getByRole('heading', { level: 1 })).toHaveText(new RegExp(bench, 'i'));
      await expect(page.getByRole('heading', { level: 2 }).first()).toBeVisible();
      // The list of frames, whose controls once wrote a style of their own.
      if (bench === 'frames')
        await expect(page.getByText('glasshouse_12.png').first()).toBeVisible();
    }
    // The policy bites: what it forbids is refused.
    const isRefused = await page.evaluate(() =>
      fetch('https://example.org/').then(
        () => false,
        () => true,
      ),
    );
    expect(isRefused).toBe(true);
    expect(privacy.refused().filter((text) => !text.includes('example.org'))).toEqual([]);
    expect(privacy.outside()).toEqual([]);
    // Page, chunks, fonts, workers, demo: a watch that saw none of them would prove nothing.
    expect(privacy.count()).toBeGreaterThan(30);
    expect(errors).toEqual([]);
  },
);

test('names from outside are words, never markup', async ({ page }) => {
  const name = '<img src=x onerror="document.title=1">.png';
  await openStudio(page, 'frames');
  const [first = ''] = await makeFrames();
  await page
    .locator('input[type=file]')
    .first()
    .setInputFiles({ name, mimeType: 'image/png', buffer: readFileSync(first) });
  await expect(page.getByText(name).first()).toBeVisible();
  await type(page, 'Job name', '<script>document.title=1</script>');
  await page.goto('./#/weave');
  await expect(page.getByRole('button', { name: 'Weave sheet' })).toBeVisible();
  await expect(page.locator('img[src="x"], body script:not([src])')).toHaveCount(0);
  expect(await page.title()).toContain('<script>');
});
