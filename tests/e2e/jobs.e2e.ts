/** Kept jobs in a real browser: the list, two tabs on one job, an older studio, a page that crashes, a lost copy. */
import type { Page } from 'playwright/test';
import { test as firstVisit } from './support/any-visit.ts';
import sharp from 'sharp';
import { axeFaults } from './support/axe.ts';
import { addButton, jobs, kept, opened } from './support/jobs.ts';
import { expect, test, testApart } from './support/kept-demo.ts';
import { field, keptStates, type } from './support/page.ts';

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

test('a second tab on a job looks on, takes it over with the last change, and gives it back @wider', async ({
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
  'where a browser has no locks, the tab that falls behind is told and its change kept apart @wider',
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

test('a page that crashes while a person types loses nothing that had settled', async ({
  page,
  context,
}) => {
  await opened(page);
  await type(page, 'View slots', '7');
  await kept(page, 2);
  await field(page, 'Print width').fill('1');
  const devtools = await context.newCDPSession(page);
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
  'a frame whose copy never came to the disk is named, and takes its original back @wider',
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
