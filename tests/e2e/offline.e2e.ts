/** One visit, then no network: the whole studio, benches not opened before and the demo among it. */
import type { Page } from 'playwright/test';
import { expect, test } from './support/any-visit.ts';
import { type } from './support/page.ts';

test.use({ serviceWorkers: 'allow' });

const kept = (page: Page) =>
  page.evaluate(async () => {
    await navigator.serviceWorker.ready;
    const names = await caches.keys();
    const counts = await Promise.all(
      names.map(async (name) => (await (await caches.open(name)).keys()).length),
    );
    return counts.reduce((sum, count) => sum + count, 0);
  });

test('after one visit everything works without a network @wider', async ({ page, context }) => {
  await page.goto('./#/weave');
  await expect(page.getByText('12 for 12 slots')).toBeVisible();
  await expect.poll(() => kept(page)).toBeGreaterThan(60);
  const manifest = await page.locator('link[rel="manifest"]').getAttribute('href');
  expect(manifest).toBe('./manifest.webmanifest');

  await context.setOffline(true);
  await page.reload();
  await expect(page.getByText('12 for 12 slots')).toBeVisible();
  for (const bench of ['shoot', 'mend', 'plan']) {
    await page.goto(`./#/${bench}`);
    await expect(page.getByRole('heading', { level: 2 }).first()).toBeVisible();
  }
  // Packages and fonts ask that their licences go with them: of the page, of a worker, of the service worker.
  const opened = context.waitForEvent('page');
  await page.getByRole('link', { name: /^Licences/ }).click();
  const licences = await opened;
  for (const name of [
    /^react \d/,
    /^geotiff \d/,
    /^workbox-core \d/,
    /^@fontsource-variable\/bitter/,
  ])
    await expect(licences.getByRole('heading', { name })).toBeVisible();
  await expect(licences.getByText('SIL OPEN FONT LICENSE').first()).toBeVisible();
  await licences.close();

  await page.goto('./#/frames');
  await page.getByRole('button', { name: 'Remove all' }).click();
  await page.getByRole('button', { name: 'Open Fog coming in' }).click();
  await expect(page.getByText('lighthouse_12.png').first()).toBeVisible();
  await type(page, 'Print width', '2 in');
  await page.goto('./#/weave');
  await page.getByRole('button', { name: 'Weave sheet' }).click();
  await expect(page.getByRole('link', { name: 'Save sheet' })).toBeVisible();
});

test('a page that goes while it weaves says so when it comes again @wider', async ({ page }) => {
  await page.goto('./#/weave');
  await expect(page.getByText('12 for 12 slots')).toBeVisible();
  // A sheet large enough to be caught under way.
  await type(page, 'Print height', '60 in');
  page.on('dialog', (dialog) => void dialog.accept());
  await page.getByRole('button', { name: 'Weave sheet' }).click();
  await expect(page.getByRole('progressbar', { name: 'Weaving' })).toBeVisible();
  await page.reload();
  await expect(page.getByText(/was being woven when the page went/)).toBeVisible();
  await page.getByRole('button', { name: 'Dismiss' }).click();
  await type(page, 'Print height', '2.5 in');
  await page.getByRole('button', { name: 'Weave sheet' }).click();
  await expect(page.getByRole('link', { name: 'Save sheet' })).toBeVisible();
});
