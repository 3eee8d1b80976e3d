/** What the studio says when something goes wrong beside it is true, and the work goes on. */
import type { Page } from 'playwright/test';
import { test as firstVisit } from './support/any-visit.ts';
import { jobs, opened } from './support/jobs.ts';
import { expect, test } from './support/kept-demo.ts';
import { field, holdWriting, keptAs, type } from './support/page.ts';

/** As another page of the site, or the person at the browser's own switch, does. */
const deleteJobs = (page: Page) =>
  page.evaluate(
    () =>
      new Promise<void>((resolve, reject) => {
        const asked = indexedDB.deleteDatabase('tiltloom-job');
        asked.onsuccess = () => resolve();
        asked.onerror = () => reject(new Error(asked.error?.message));
      }),
  );

test('kept jobs that are deleted under the page: the open one is written again, and that is told', async ({
  page,
  context,
}) => {
  await opened(page);
  await type(page, 'View slots', '9');
  await keptAs(page, ({ viewSlots }) => viewSlots === 9);
  const other = await context.newPage();
  await other.route('**/nothing', (route) => route.fulfill({ contentType: 'text/html', body: '' }));
  await other.goto('nothing');
  await deleteJobs(other);
  await expect(page.getByText(/jobs kept in this browser were deleted/)).toBeVisible();
  await expect(page.getByText(/newer studio/)).toHaveCount(0);
  await keptAs(page, ({ viewSlots }) => viewSlots === 9);
  await type(page, 'View slots', '8');
  await keptAs(page, ({ viewSlots }) => viewSlots === 8);
  await page.reload();
  await expect(field(page, 'View slots')).toHaveValue('8');
  await expect(page.getByText('12 for 8 slots')).toBeVisible();
});

firstVisit(
  'a private disk that never answers: the studio opens, says so, and weaves',
  async ({ page }) => {
    await page.addInitScript(() => {
      Object.defineProperty(navigator.storage, 'getDirectory', {
        value: () => new Promise(() => undefined),
      });
    });
    await opened(page, '#/weave');
    await expect(page.getByText('The browser’s private disk does not answer.')).toBeVisible();
    await type(page, 'Print width', '2 in');
    await type(page, 'Print height', '2.5 in');
    await page.getByRole('button', { name: 'Weave sheet' }).click();
    await expect(page.getByRole('link', { name: 'Save sheet' })).toBeVisible();
    await expect(page.getByText('No room is left')).toHaveCount(0);
  },
);

firstVisit(
  'a private disk that answers late takes what had waited for it @wider',
  async ({ page }) => {
    await page.addInitScript(() => {
      const { storage } = navigator;
      const own = storage.getDirectory.bind(storage);
      const answers = new Promise((resolve) => Object.assign(globalThis, { answer: resolve }));
      Object.defineProperty(storage, 'getDirectory', { value: () => answers.then(own) });
    });
    await opened(page);
    await expect(page.getByText('The browser’s private disk does not answer.')).toBeVisible();
    await page.evaluate(() => (globalThis as unknown as { answer(): void }).answer());
    // Nobody waits for the ten seconds after which it is tried again: they pass.
    const count = () =>
      page.evaluate(async () => {
        const root = await navigator.storage.getDirectory();
        let files = 0;
        for await (const _ of (await root.getDirectoryHandle('frames', { create: true })).keys())
          files += 1;
        return files;
      });
    await expect.poll(count).toBe(24);
  },
);

firstVisit('two first visits at once make one job', async ({ context, baseURL }) => {
  const [one, other] = [await context.newPage(), await context.newPage()];
  await Promise.all([one.goto(baseURL ?? ''), other.goto(baseURL ?? '')]);
  for (const page of [one, other])
    await expect(field(page, 'Job name')).toHaveValue('The old glasshouse');
  await keptAs(one, ({ frames }) => frames.length === 12);
  const list = await jobs(one);
  await expect(list.getByRole('heading', { name: 'The old glasshouse' })).toHaveCount(1);
});

test('a tab that is copied while it weaves does not speak of a sheet that was not finished @wider', async ({
  page,
}) => {
  await opened(page, '#/weave');
  await type(page, 'Print width', '30 mm');
  await type(page, 'Print height', '20 mm');
  const { untilItWaits, letGo } = await holdWriting(page);
  await page.getByRole('button', { name: 'Weave sheet' }).click();
  await untilItWaits();
  const [copy] = await Promise.all([
    page.waitForEvent('popup'),
    page.evaluate(() => void open(location.href)),
  ]);
  await expect(copy.getByText('Only to look at')).toBeVisible();
  await expect(copy.getByText('12 for 12 slots')).toBeVisible();
  // It has looked at its session, and asked in vain for what the tab that weaves holds as long as it lives.
  const asks = () =>
    copy.evaluate(async () => {
      if (sessionStorage.getItem('tiltloom-under-way') !== null) return true;
      const { pending = [] } = await navigator.locks.query();
      return pending.some(({ name = '' }) => name.startsWith('tiltloom-weaving-'));
    });
  await expect.poll(asks).toBe(false);
  await expect(copy.getByText('was being woven when the page went')).toHaveCount(0);
  await letGo();
  await expect(page.getByRole('link', { name: 'Save sheet' })).toBeVisible();
});
