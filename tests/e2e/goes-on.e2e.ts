/**
 * A weave that broke off goes on after the last bands that are kept, and its sheet has the dots of one that was woven
 * in one go.
 */
import type { Page } from 'playwright/test';
import sharp from 'sharp';
import { expect, test } from './support/kept-demo.ts';
import { field, saved, type } from './support/page.ts';

const goOn = (page: Page) => page.getByRole('button', { name: 'Go on weaving sheet' });
const press = (page: Page) => page.getByRole('button', { name: /^Weave sheet/ }).click();
const stop = (page: Page) => page.getByRole('button', { name: 'Stop', exact: true });
const offer = (page: Page) => page.getByRole('link', { name: 'Save sheet' });

const open = async (page: Page, width: string, height: string) => {
  page.on('dialog', (dialog) => void dialog.accept().catch(() => undefined));
  await page.goto('./#/weave');
  await expect(field(page, 'Job name')).toHaveValue('The old glasshouse');
  await type(page, 'Print width', width);
  await type(page, 'Print height', height);
  // The frames are there, so that what follows is woven at once.
  await expect(page.getByText(/^Preparing frames/)).toHaveCount(0);
};

/** Batches of bands that lie on the private disk; a file that is whole has its ends there too. */
const keptNames = (page: Page): Promise<string[]> =>
  page.evaluate(async () => {
    const root = await navigator.storage.getDirectory();
    const names: string[] = [];
    const folder = await root.getDirectoryHandle('sheets', { create: true });
    for await (const name of folder.keys()) if (!name.endsWith('.crswap')) names.push(name);
    return names;
  });
const batches = async (page: Page) =>
  (await keptNames(page)).filter((name) => /\.0\.\d+$/.test(name)).length;

/** Batches of the weave that is not whole, and so has no ends. */
const newest = async (page: Page): Promise<number> => {
  const names = await keptNames(page);
  const whole = names.filter((name) => name.endsWith('.ends')).map((name) => name.split('.')[0]);
  return names.filter((name) => /\.0\.\d+$/.test(name) && !whole.includes(name.split('.')[0]))
    .length;
};

/** As a hurried disk would do: a batch for each band. */
const smallBatches = (page: Page) =>
  page.addInitScript(() => {
    let ahead = 0;
    const now = performance.now.bind(performance);
    performance.now = () => now() + (ahead += 400);
  });

const dotsOf = async (page: Page): Promise<Buffer> => {
  const { bytes } = await saved(page, 'Save sheet');
  return sharp(bytes, { limitInputPixels: false }).raw().toBuffer();
};

test('after a reload in its middle, unless something has changed; and a whole sheet is found again', async ({
  page,
}) => {
  await smallBatches(page);
  await open(page, '200 mm', '250 mm');
  await press(page);
  await expect.poll(() => batches(page), { intervals: [20] }).toBeGreaterThan(1);
  await page.reload();
  await expect(page.getByText(/What was woven of it is kept/)).toBeVisible();
  await expect(page.getByText(/\d+ % of the sheet are kept/)).toBeVisible();
  await expect(offer(page)).toHaveCount(0);
  const before = await batches(page);
  expect(before).toBeGreaterThan(1);

  // Another print: the rest would not fit.
  await type(page, 'Viewing distance', '500 mm');
  await expect(page.getByText(/but the lens, the size or the printer changed since/)).toBeVisible();
  await expect(goOn(page)).toHaveCount(0);
  await page.getByRole('button', { name: /^Undo/ }).click();

  await goOn(page).click();
  await expect(offer(page)).toBeVisible();
  expect(await batches(page), 'no batch was woven again').toBeGreaterThanOrEqual(before);
  const goneOn = await dotsOf(page);

  await page.reload();
  await expect(offer(page), 'it is there still').toBeVisible();
  expect(goneOn.equals(await dotsOf(page))).toBe(true);

  await press(page);
  await expect(offer(page)).toHaveCount(0);
  await expect(offer(page)).toBeVisible();
  expect(goneOn.equals(await dotsOf(page)), 'as woven in one go').toBe(true);
});

test('fifty times, wherever it was stopped, reloaded or its tab crashed @wider', async ({
  context,
}) => {
  test.setTimeout(3_600_000);
  let page = await context.newPage();
  await smallBatches(page);
  await open(page, '200 mm', '250 mm');
  await press(page);
  const whole = await dotsOf(page);
  let seed = 50;
  const next = () => (seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0) / 2 ** 32;
  let struck = 0;
  for (let round = 0; round < 50; round += 1) {
    await press(page);
    await expect(offer(page)).toHaveCount(0);
    const wants = 1 + Math.floor(3 * next());
    const isBegun = async () => (await newest(page)) >= wants || (await offer(page).count()) > 0;
    await expect.poll(isBegun, { intervals: [20] }).toBe(true);
    await page.waitForTimeout(200 * next());
    const fault = Math.floor(3 * next());
    if (fault === 0)
      await stop(page)
        .click({ timeout: 300 })
        .catch(() => undefined);
    else if (fault === 1) await page.reload();
    else {
      const session = await context.newCDPSession(page);
      await Promise.race([
        session.send('Page.crash').catch(() => undefined),
        page.waitForEvent('crash'),
      ]);
      await page.close();
      page = await context.newPage();
      await smallBatches(page);
      page.on('dialog', (dialog) => void dialog.accept().catch(() => undefined));
      await page.goto('./#/weave');
    }
    // Broken off with something kept, with nothing kept, or whole before the fault struck.
    await expect(
      goOn(page)
        .or(offer(page))
        .or(page.getByText(/Nothing was kept|nothing of it is left/i))
        .first(),
    ).toBeVisible();
    if (await goOn(page).isVisible()) {
      struck += 1;
      await goOn(page).click();
      await expect(offer(page)).toBeVisible();
      expect(whole.equals(await dotsOf(page)), `round ${round}`).toBe(true);
    }
  }
  // Rounds in which nothing was kept yet, or all was whole, show nothing.
  expect(struck).toBeGreaterThan(15);
  console.log(`${struck} of 50 rounds went on from a part`);
});
