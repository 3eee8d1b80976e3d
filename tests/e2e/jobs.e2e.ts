/** Kept jobs in a real browser: the list, two tabs on one job, a page that crashes, a disk that is full. */
import type { BrowserContext, CDPSession, Page } from 'playwright/test';
import { test as firstVisit } from 'playwright/test';
import sharp from 'sharp';
import { axeFaults } from './support/axe.ts';
import { expect, test, testApart } from './support/kept-demo.ts';
import { field, keptAs, keptStates, type } from './support/page.ts';

const opened = async (page: Page, address = '#/frames') => {
  await page.goto(address);
  await expect(page.getByText('12 for 12 slots')).toBeVisible();
  await kept(page);
};

/** Until what is on the page is on the disk. */
const kept = async (page: Page, count = 1) =>
  expect.poll(async () => (await keptStates(page)).length).toBeGreaterThanOrEqual(count);

const jobs = async (page: Page) => {
  await page.getByRole('button', { name: 'Jobs', exact: true }).click();
  return page.getByRole('dialog', { name: 'Jobs' });
};

const addButton = (page: Page) => page.getByRole('main').locator('input[type=file]').first();

const picture =
  (name: string, blue: number, side = 60) =>
  async () => ({
    name,
    mimeType: 'image/png',
    buffer: await sharp({
      create: { width: side, height: side, channels: 3, background: { r: 20, g: 90, b: blue } },
    })
      .png()
      .toBuffer(),
  });

test('jobs are begun, renamed, copied, deleted, brought back, and each tab finds its own', async ({
  page,
}) => {
  await opened(page, '#/frames');
  const list = await jobs(page);
  await expect(list.getByText('Open now')).toBeVisible();
  await expect(list.locator('img')).toHaveCount(1);
  expect(await axeFaults(page)).toEqual([]);
  await list.getByRole('button', { name: 'New job' }).click();
  await expect(list).toBeHidden();
  await expect(field(page, 'Job name')).toHaveValue('Untitled print');
  await type(page, 'View slots', '5');
  await jobs(page);
  await list.getByRole('button', { name: 'Rename Untitled print' }).click();
  await type(page, 'New name of Untitled print', 'Heron');
  await list.getByRole('button', { name: 'Make a copy of Heron' }).click();
  await expect(list.getByRole('heading', { name: 'Heron (copy)' })).toBeVisible();
  await list.getByRole('button', { name: 'Delete Heron', exact: true }).click();
  await expect(list.getByRole('status')).toContainText('can be brought back');
  // The newest of the others took its place.
  await expect(field(page, 'Job name')).toHaveValue('Heron (copy)');
  await list.getByRole('button', { name: 'Bring back Heron' }).click();
  await list.getByRole('button', { name: 'Open Heron', exact: true }).click();
  await expect(field(page, 'Job name')).toHaveValue('Heron');
  await expect(field(page, 'View slots')).toHaveValue('5');
  await page.reload();
  await expect(field(page, 'Job name')).toHaveValue('Heron');
  // The way back stands after a reload.
  await page.getByRole('button', { name: 'Undo: job name' }).click();
  await page.getByRole('button', { name: 'Undo: view slots' }).click();
  await expect(field(page, 'View slots')).toHaveValue('12');
  await jobs(page);
  await list.getByRole('button', { name: 'Open The old glasshouse' }).press('Enter');
  await expect(page.getByText('12 for 12 slots')).toBeVisible();
});

test('a second tab on a job looks on, takes it over with the last change, and gives it back', async ({
  page,
  context,
}) => {
  await opened(page);
  const second = await context.newPage();
  await second.goto('#/plan');
  await expect(second.getByText('This job is open in another tab').first()).toBeVisible();
  await type(second, 'View slots', '3');
  await expect(second.getByText('What you just did was not done.')).toBeVisible();
  // What is kept in the first is seen in the second.
  await field(second, 'View slots').press('Escape');
  await type(second, 'Print width', '99');
  await type(page, 'View slots', '9');
  await expect(field(second, 'View slots')).toHaveValue('9');
  // Taken over in the middle of a change that is not kept yet: the change comes along.
  await type(page, 'View slots', '8');
  await second.getByRole('button', { name: 'Take over here' }).click();
  await expect(second.getByRole('button', { name: 'Take over here' })).toBeHidden();
  await expect(field(second, 'View slots')).toHaveValue('8');
  // What was refused is no longer in its field.
  await expect(field(second, 'Print width')).toHaveValue('203.2');
  await expect(page.getByRole('button', { name: 'Take back' })).toBeVisible();
  await type(second, 'View slots', '6');
  await expect(field(page, 'View slots')).toHaveValue('6');
  await type(page, 'View slots', '4');
  await expect(page.getByText('What you just did was not done.')).toBeVisible();
  await page.bringToFront();
  expect(await axeFaults(page)).toEqual([]);
  await page.getByRole('button', { name: 'Take back' }).click();
  await expect(page.getByRole('button', { name: 'Take back' })).toBeHidden();
  await type(page, 'View slots', '11');
  await expect(field(second, 'View slots')).toHaveValue('11');
  // Deleting what another tab works on is refused.
  const list = await jobs(second);
  await list.getByRole('button', { name: 'Delete The old glasshouse' }).click();
  await expect(list.getByRole('status')).toContainText('open in another tab');
  expect((await keptStates(page)).map(({ job }) => job.viewSlots)).toEqual([12, 9, 8, 6, 11]);
});

testApart(
  'where a browser has no locks, the tab that falls behind is told and its change kept apart',
  async ({ context }) => {
    await context.addInitScript(() => {
      // Nor can its tabs hear of each other: only the number of the state on the disk is left.
      Reflect.deleteProperty(Navigator.prototype, 'locks');
      Reflect.deleteProperty(globalThis, 'BroadcastChannel');
    });
    const [first, second] = [await context.newPage(), await context.newPage()];
    await opened(first);
    await second.goto('#/plan');
    await expect(field(second, 'View slots')).toHaveValue('12');
    await type(first, 'View slots', '5');
    await kept(first, 2);
    await type(second, 'View slots', '6');
    await expect(second.getByText('Another tab has taken this job over')).toBeVisible();
    await kept(first, 3);
    expect(
      (await keptStates(first)).map(({ job }) => `${job.name}: ${job.viewSlots}`).sort(),
    ).toEqual([
      'The old glasshouse (from the other tab): 6',
      'The old glasshouse: 12',
      'The old glasshouse: 5',
    ]);
  },
);

firstVisit(
  'the job of an older studio comes along, once its tab has let go of it',
  async ({ page, context }) => {
    const older = await context.newPage();
    await older.route('**/older', (route) => route.fulfill({ contentType: 'text/html', body: '' }));
    await older.goto('older');
    // As version 1 kept it: one store, one key.
    await older.evaluate(
      (job) =>
        new Promise<void>((resolve) => {
          const asked = indexedDB.open('tiltloom-job', 1);
          asked.onupgradeneeded = () => asked.result.createObjectStore('jobs').put(job, 'current');
          asked.onsuccess = () => resolve();
        }),
      {
        version: 1,
        name: 'Petrel',
        lens: { pitchMm: 0.5, thicknessMm: 0.84, index: 1.5685 },
        ribs: 'upright',
        printer: { acrossDpi: 720, alongDpi: 720 },
        print: { widthMm: 100, heightMm: 150, viewingDistanceMm: 400 },
        viewSlots: 9,
        columns: 'blended',
        placement: { mode: 'fill', shiftX: 0, shiftY: 0 },
        exposureStops: 0,
        frames: [],
      },
    );
    await page.goto('#/plan');
    await expect(page.getByText('open in another tab from before it was renewed')).toBeVisible();
    await older.close();
    await expect(field(page, 'Job name')).toHaveValue('Petrel');
    await type(page, 'View slots', '8');
    await page.reload();
    await expect(field(page, 'View slots')).toHaveValue('8');
    await expect(page.getByText('renewed')).toHaveCount(0);
  },
);

const session = (context: BrowserContext, page: Page): Promise<CDPSession> =>
  context.newCDPSession(page);

test('a page that crashes while a person types loses nothing that had settled', async ({
  page,
  context,
}) => {
  await opened(page);
  await type(page, 'View slots', '7');
  await kept(page, 2);
  await field(page, 'Print width').fill('1');
  const devtools = await session(context, page);
  devtools.send('Page.crash').catch(() => undefined);
  await page.waitForEvent('crash');
  const next = await context.newPage();
  await next.goto('#/frames');
  await expect(field(next, 'View slots')).toHaveValue('7');
  await expect(field(next, 'Print width')).toHaveValue('203.2');
  // The crashed tab holds nothing any more.
  await expect(next.getByText('open in another tab')).toHaveCount(0);
});

/** Files in the frames folder of the private disk. */
const frameFiles = (page: Page, remove: number) =>
  page.evaluate(async (toGo) => {
    const root = await navigator.storage.getDirectory();
    const folder = await root.getDirectoryHandle('frames', { create: true });
    const names: string[] = [];
    for await (const name of folder.keys()) names.push(name);
    for (const name of names.filter((one) => !one.endsWith('thumbnail')).slice(0, toGo))
      await folder.removeEntry(name);
    return names.length;
  }, remove);

firstVisit(
  'a frame whose copy never came to the disk is named, and takes its original back',
  async ({ page }) => {
    // A browser that does not promise to keep anything, and counts how often it is asked.
    await page.addInitScript(() => {
      Object.assign(globalThis, { asked: 0 });
      StorageManager.prototype.persist = () => {
        (globalThis as unknown as { asked: number }).asked += 1;
        return Promise.resolve(false);
      };
    });
    const asked = () => page.evaluate(() => (globalThis as unknown as { asked: number }).asked);
    await opened(page);
    await (await jobs(page)).getByRole('button', { name: 'New job' }).click();
    const before = await frameFiles(page, 0);
    const gull = await picture('gull_1.png', 200)();
    // Neither on the first visit nor for the demo's frames; then once, when there is something to lose.
    expect(await asked()).toBe(0);
    await addButton(page).setInputFiles([gull]);
    await expect.poll(() => frameFiles(page, 0)).toBe(before + 2);
    await expect.poll(asked).toBe(1);
    await kept(page, 3);
    await frameFiles(page, 1000);
    await page.reload();
    await expect(page.getByText('Missing original: gull_1.png.')).toBeVisible();
    await expect(page.getByText('original missing')).toBeVisible();
    await addButton(page).setInputFiles([{ ...gull, name: 'renamed meanwhile.png' }]);
    await expect(page.getByText('The job has its original back.').first()).toBeVisible();
    await expect(page.getByText('original missing')).toHaveCount(0);
    await expect(page.getByRole('grid', { name: 'Frames in order' }).getByRole('row')).toHaveCount(
      1,
    );
    await page.reload();
    await expect(page.getByText('gull_1.png').first()).toBeVisible();
    await expect(page.getByText('original missing')).toHaveCount(0);
    await addButton(page).setInputFiles([await picture('gull_2.png', 90)()]);
    await expect(page.getByText('gull_2.png').first()).toBeVisible();
    expect(await asked()).toBe(0);
    // Later at the person's own wish, and the answer is said.
    const list = await jobs(page);
    await list.getByRole('button', { name: 'Ask the browser to keep it' }).click();
    await expect(list.getByText('was asked, and does not promise it')).toBeVisible();
    expect(await asked()).toBe(1);
  },
);

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

test('a full disk says what found no room, spoils nothing, and goes on once room is made', async ({
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
  const devtools = await session(context, page);
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
  'on a disk that takes nothing more the job, the shelves and a proved pitch live on in the page until room is made',
  async ({ page, context }) => {
    // Before anything is written: a browser looks only now and then how much room its databases have.
    await page.route('**/nothing', (route) =>
      route.fulfill({ contentType: 'text/html', body: '' }),
    );
    await page.goto('nothing');
    const devtools = await session(context, page);
    const { origin } = new URL(page.url());
    await devtools.send('Storage.overrideQuotaForOrigin', { origin, quotaSize: 16_000_000 });
    await opened(page, '#/calibrate');
    await type(page, 'Print width', '60 mm');
    await type(page, 'Print height', '40 mm');
    await page.getByRole('button', { name: 'Weave strip' }).click();
    await expect(page.getByRole('link', { name: 'Save strip', exact: true })).toBeVisible();
    await page.getByRole('combobox', { name: 'Best band' }).selectOption({ index: 3 });
    const list = await jobs(page);
    await list.getByRole('button', { name: 'Make a copy of The old glasshouse' }).click();
    await expect(list.getByRole('heading', { name: /copy/ })).toBeVisible();
    await page.keyboard.press('Escape');

    await fillUp(page);
    const told = page.getByRole('alert').filter({ hasText: 'No room is left' });
    await page.getByRole('button', { name: 'Use this pitch' }).click();
    await expect(told).toContainText('the proved pitch');
    await page.goto('#/plan');
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
    await list.getByRole('button', { name: /^Free: Job .*copy/ }).click();
    await list.getByRole('button', { name: /^Yes, delete for good/ }).click();
    await expect(list.getByRole('heading', { name: /copy/ })).toHaveCount(0);
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
