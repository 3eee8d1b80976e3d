/** A disk that is full: what found no room is named, nothing is spoiled, and it goes on once room is made. */
import type { Page } from 'playwright/test';
import { test as firstVisit } from './support/any-visit.ts';
import sharp from 'sharp';
import { addButton, jobs, kept, opened } from './support/jobs.ts';
import { expect, test } from './support/kept-demo.ts';
import { field, keptAs, keptStates, type } from './support/page.ts';

/** Bytes in use, once what is prepared for a job is written and that of the last one removed. */
const settledUse = async (page: Page): Promise<number> => {
  const look = () => page.evaluate(async () => (await navigator.storage.estimate()).usage ?? 0);
  let [before, now] = [-1, await look()];
  while (before !== now) {
    await page.waitForTimeout(400);
    [before, now] = [now, await look()];
  }
  return now;
};

test('a full disk says what found no room, spoils nothing, and goes on once room is made @wider', async ({
  page,
  context,
}) => {
  await opened(page);
  const list = await jobs(page);
  // Another job with frames of its own, to be given up.
  await list.getByRole('button', { name: 'Begin with The dive' }).click();
  await expect(field(page, 'Job name')).toHaveValue('The dive');
  await kept(page, 2);
  await jobs(page);
  await list.getByRole('button', { name: 'Open The old glasshouse' }).click();
  await expect(field(page, 'Job name')).toHaveValue('The old glasshouse');
  const devtools = await context.newCDPSession(page);
  const { origin } = new URL(page.url());
  const used = await settledUse(page);
  await devtools.send('Storage.overrideQuotaForOrigin', { origin, quotaSize: used + 30_000 });
  const noise = await sharp(
    Buffer.from(Array.from({ length: 300 * 300 * 3 }, (_, i) => (i * 7919) % 251)),
    {
      raw: { width: 300, height: 300, channels: 3 },
    },
  )
    .png({ compressionLevel: 0 })
    .toBuffer();
  await addButton(page).setInputFiles([{ name: 'tern.png', mimeType: 'image/png', buffer: noise }]);
  const told = page.getByRole('alert').filter({ hasText: 'No room is left' });
  await expect(told).toContainText('tern.png');
  await told.getByRole('button', { name: 'See what can be freed' }).click();
  await expect(list.getByText(/^Used: .* of /)).toBeVisible();
  await list.getByRole('button', { name: 'Free: Job “The dive”' }).click();
  await list.getByRole('button', { name: /^Yes, delete for good/ }).click();
  await expect(list.getByRole('heading', { name: 'The dive' })).toHaveCount(0);
  await expect(told).toHaveCount(0);
  await devtools.send('Storage.overrideQuotaForOrigin', { origin });
  await page.keyboard.press('Escape');
  await keptAs(page, ({ frames }) => frames.length === 13);
  await page.reload();
  // The frame that had found no room is there, with all that was there before.
  await expect(page.getByText('13 for 12 slots')).toBeVisible();
  await expect(page.getByText('original missing')).toHaveCount(0);
});

/** Lays down what nobody needs until not even a thousand bytes more find room. */
const fillUp = (page: Page) =>
  page.evaluate(
    () =>
      new Promise<void>((resolve) => {
        const asked = indexedDB.open('filler', 1);
        asked.onupgradeneeded = () =>
          asked.result.createObjectStore('all', { autoIncrement: true });
        asked.onsuccess = () => {
          const lay = (bytes: number) => {
            if (bytes < 1000) return resolve();
            const work = asked.result.transaction('all', 'readwrite');
            // A database makes less of what repeats itself.
            const noise = new Uint8Array(bytes);
            for (let from = 0; from < bytes; from += 65_536)
              crypto.getRandomValues(noise.subarray(from, from + 65_536));
            work.objectStore('all').add(noise);
            work.oncomplete = () => lay(bytes);
            work.onabort = () => lay(bytes >> 2);
          };
          lay(2 ** 22);
        };
      }),
  );

firstVisit(
  'on a disk that takes nothing more the job, the shelves and a proved pitch live on in the page until room is made @wider',
  async ({ page, context }) => {
    // Before anything is written: a browser looks only now and then how much room its databases have.
    await page.route('**/nothing', (route) =>
      route.fulfill({ contentType: 'text/html', body: '' }),
    );
    await page.goto('nothing');
    const devtools = await context.newCDPSession(page);
    const { origin } = new URL(page.url());
    await devtools.send('Storage.overrideQuotaForOrigin', { origin, quotaSize: 16_000_000 });
    await opened(page, '#/calibrate');
    await type(page, 'Print width', '60 mm');
    await type(page, 'Print height', '40 mm');
    await type(page, 'Job name', 'Sea wall');
    await page.getByRole('button', { name: 'Weave strip' }).click();
    await expect(page.getByRole('link', { name: 'Save strip', exact: true })).toBeVisible();
    await page.getByRole('combobox', { name: 'Best band' }).selectOption({ index: 3 });
    const list = await jobs(page);
    await list.getByRole('button', { name: 'Make a copy of Sea wall' }).click();
    const copy = list.getByRole('heading', { name: /Sea wall.*copy/ });
    await expect(copy).toBeVisible();
    await page.keyboard.press('Escape');

    await fillUp(page);
    const told = page.getByRole('alert').filter({ hasText: 'No room is left' });
    await page.getByRole('button', { name: 'Use this pitch' }).click();
    await expect(told).toContainText('the proved pitch');
    await page.goto('#/workshop');
    // The job itself may yet find room: its way back gives it up.
    await type(page, 'View slots', '7');
    const isTried = async () =>
      (await keptStates(page)).at(-1)?.job.viewSlots === 7 ||
      (await told.innerText()).includes('the job');
    await expect.poll(isTried).toBe(true);
    await fillUp(page);
    await page.getByRole('button', { name: 'Add a lens' }).click();
    await type(page, 'Name', 'Lighthouse sheet');
    await expect(told).toContainText('the shelves');

    // Giving up a job takes no room; if it gives none either, the rest is written when there is some.
    await told.getByRole('button', { name: 'See what can be freed' }).click();
    await list.getByRole('button', { name: /^Free: Job .*Sea wall.*copy/ }).click();
    await list.getByRole('button', { name: /^Yes, delete for good/ }).click();
    await expect(copy).toHaveCount(0);
    await devtools.send('Storage.overrideQuotaForOrigin', { origin });
    await page.keyboard.press('Escape');
    if (await told.isVisible()) await told.getByRole('button', { name: 'Try again' }).click();
    await expect(told).toHaveCount(0);
    await page.reload();
    await expect(field(page, 'View slots')).toHaveValue('7');
    await expect(page.getByRole('heading', { level: 3, name: 'Lighthouse sheet' })).toBeVisible();
    await page.goto('#/calibrate');
    await expect(page.getByRole('cell', { name: 'in use' })).toBeVisible();
  },
);
