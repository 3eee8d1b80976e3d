/**
 * Work and the job that it was begun in. What is being written stays with its job and keeps the files that it
 * reads; what was written is offered in its job alone, and only as long as it is there.
 */
import type { Page } from 'playwright/test';
import sharp from 'sharp';
import { expect, test } from './support/kept-demo.ts';
import {
  atRest,
  field,
  filesIn,
  holdWriting,
  keptAs,
  keptStates,
  saved,
  showPart,
  type,
} from './support/page.ts';

const first = 'The old glasshouse';
const second = `${first} (copy)`;

const isWoven = 'The open job is being woven. Wait until it is done, or stop it.';

/** The studio on a bench, with a print so small that a test is quick. */
const openBench = async (page: Page, bench: string) => {
  await page.goto(`./#/${bench}`);
  await expect(field(page, 'Job name')).toHaveValue(first);
  if (['calibrate', 'mount'].includes(bench)) await showPart(page, 'Everything');
  await type(page, 'Print width', '30 mm');
  await type(page, 'Print height', '20 mm');
};

const weave = (page: Page, what: string) =>
  page.getByRole('button', { name: `Weave ${what}`, exact: true }).click();

/** The link that offers a finished file, whatever else it may say. */
const offer = (page: Page, name: string) =>
  page.getByRole('link', { name: new RegExp(`^${name}\\b`) });

const openList = async (page: Page) => {
  await page.getByRole('button', { name: 'Jobs', exact: true }).click();
  return page.getByRole('dialog', { name: 'Jobs' });
};

const copyFirst = async (page: Page) => {
  const list = await openList(page);
  await list.getByRole('button', { name: `Make a copy of ${first}`, exact: true }).click();
  await expect(list.getByRole('heading', { name: second })).toBeVisible();
  await page.keyboard.press('Escape');
};

const openJob = async (page: Page, name: string) => {
  const list = await openList(page);
  await list.getByRole('button', { name: `Open ${name}`, exact: true }).click();
  await expect(list).toBeHidden();
  await expect(field(page, 'Job name')).toHaveValue(name);
};

const freeSheets = async (page: Page) => {
  const list = await openList(page);
  await list.getByRole('button', { name: /^Free: Finished sheets/ }).click();
  return list;
};

/** Weaves something up to its first bytes, which wait. @returns what lets them go. */
const weaveAndHold = async (page: Page, what: string) => {
  const { untilItWaits, letGo } = await holdWriting(page);
  await weave(page, what);
  await untilItWaits();
  return letGo;
};

/** Names of the jobs that hold a wedge, as they lie on the disk. */
const jobsWithWedge = async (page: Page) => [
  ...new Set(
    (await keptStates(page))
      .filter(({ job }) => job['ghostWedge'] !== undefined)
      .map(({ job }) => job.name),
  ),
];

test('no other job is opened while a wedge or a lamp target is being written, and it stays with its own', async ({
  page,
}) => {
  await openBench(page, 'calibrate');
  await copyFirst(page);
  for (const what of ['wedge', 'lamp target'])
    await test.step(what, async () => {
      const letGo = await weaveAndHold(page, what);
      const list = await openList(page);
      for (const deed of [`Open ${second}`, 'New job']) {
        await list.getByRole('button', { name: deed, exact: true }).click();
        await expect(list.getByRole('status').getByText(isWoven)).toBeVisible();
      }
      await page.keyboard.press('Escape');
      await expect(field(page, 'Job name')).toHaveValue(first);
      await letGo();
      const { bytes } = await saved(page, `Save ${what}`);
      await sharp(bytes).stats(); // Reads every row.
    });
  await expect.poll(() => jobsWithWedge(page)).toEqual([first]);
  // Now that both are done, another job opens.
  await openJob(page, second);
  expect(await jobsWithWedge(page)).toEqual([first]);
});

/** So tall that what is prepared of it goes to the private disk. */
const tallPicture = async (number: number) => ({
  name: `lighthouse_${number}.png`,
  mimeType: 'image/png',
  buffer: await sharp({
    create: { width: 640, height: 3200, channels: 3, background: { r: 70 * number, g: 9, b: 16 } },
  })
    .png({ compressionLevel: 1 })
    .toBuffer(),
});

const preparedNames = (page: Page) =>
  page.evaluate(async () => {
    const root = await navigator.storage.getDirectory();
    const names: string[] = [];
    for await (const name of (await root.getDirectoryHandle('prepared', { create: true })).keys())
      names.push(name);
    return names.sort();
  });

const sameNames = (a: readonly string[], b: readonly string[]) => a.join() === b.join();

test('a slice keeps the prepared frames that it reads, though the job is prepared again meanwhile @wider', async ({
  page,
}) => {
  await openBench(page, 'frames');
  await page.getByRole('button', { name: 'Remove all' }).click();
  await type(page, 'Print width', '8 in');
  await type(page, 'Print height', '40 in');
  await type(page, 'Dots across', '200');
  await type(page, 'Dots along', '100');
  await page
    .locator('input[aria-label="Add frames"]')
    .setInputFiles([await tallPicture(1), await tallPicture(2)]);
  await expect(page.getByText('2 for 12 slots')).toBeVisible();
  await expect.poll(() => filesIn(page, 'prepared')).toBe(2);
  // The copies of the frames must not be what waits.
  await expect.poll(() => filesIn(page, 'frames')).toBe(24 + 4);
  await page.goto('./#/mend');
  const before = await atRest(page, () => preparedNames(page), sameNames);
  expect(before).toHaveLength(2);

  const letGo = await weaveAndHold(page, 'slice');
  await type(page, 'Viewing distance', '900 mm');
  const added = async () => (await preparedNames(page)).filter((name) => !before.includes(name));
  await expect.poll(async () => (await added()).length).toBe(2);
  const meanwhile = await atRest(page, () => preparedNames(page), sameNames);
  expect(meanwhile, 'what the slice began with is still there').toEqual(
    expect.arrayContaining(before),
  );

  await letGo();
  const { bytes } = await saved(page, 'Save slice');
  expect((await sharp(bytes).stats()).channels[0]?.max).toBeGreaterThan(0);
  // It is done: what it alone had read takes no more room.
  await expect.poll(() => preparedNames(page)).toEqual(await added());
  expect(await added()).toHaveLength(2);
});

test('no sheets are freed while a wedge is being written @wider', async ({ page }) => {
  await openBench(page, 'calibrate');
  await weave(page, 'strip');
  await expect(offer(page, 'Save strip')).toBeVisible();
  const letGo = await weaveAndHold(page, 'wedge');

  const list = await freeSheets(page);
  await expect(list.getByRole('status').getByText(/is being (woven|written)\b/)).toBeVisible();
  await page.keyboard.press('Escape');
  expect(await filesIn(page, 'sheets'), 'the strip is still there').toBeGreaterThan(0);

  await letGo();
  for (const what of ['wedge', 'strip']) {
    const { bytes } = await saved(page, `Save ${what}`);
    await sharp(bytes).stats(); // Reads every row.
  }
});

test('files of Calibrate that were freed are not offered any more @wider', async ({ page }) => {
  await openBench(page, 'calibrate');
  const all = ['strip', 'wedge', 'lamp target'];
  for (const what of all) {
    await weave(page, what);
    await expect(offer(page, `Save ${what}`)).toBeVisible();
  }
  await freeSheets(page);
  await expect.poll(() => filesIn(page, 'sheets')).toBe(0);
  await page.keyboard.press('Escape');
  for (const what of all) await expect(offer(page, `Save ${what}`)).toHaveCount(0);
});

const acrossTwoLenses = async (page: Page) => {
  await page.getByRole('radio', { name: 'Several, side by side' }).check();
  await type(page, 'Print width', '100 mm');
  await type(page, 'Dots across', '360');
  await type(page, 'Dots along', '360');
  await type(page, 'Lens sheet across the ribs', '75 mm');
  await type(page, 'Lens sheet along the ribs', '90 mm');
  await expect(page.getByRole('img', { name: /2 tiles to scale/ })).toBeVisible();
};

/** What a bench writes to files: the button that weaves it, and the link that then offers it. */
const benches: readonly {
  readonly bench: string;
  readonly files: readonly { readonly what: string; readonly link: string }[];
  readonly ready?: (page: Page) => Promise<void>;
}[] = [
  { bench: 'weave', files: [{ what: 'sheet', link: 'Save sheet' }] },
  {
    bench: 'calibrate',
    files: ['strip', 'wedge', 'lamp target'].map((what) => ({ what, link: `Save ${what}` })),
  },
  { bench: 'mend', files: [{ what: 'slice', link: 'Save slice' }] },
  {
    bench: 'mount',
    files: [{ what: 'tiles', link: 'Save row 1, tile 1' }],
    ready: acrossTwoLenses,
  },
];

for (const { bench, files, ready } of benches)
  test(`a finished file is offered in its own job alone: ${files.map(({ what }) => what).join(', ')}${bench === 'weave' ? '' : ' @wider'}`, async ({
    page,
  }) => {
    const weaveAll = async () => {
      const all: Awaited<ReturnType<typeof saved>>[] = [];
      for (const { what, link } of files) {
        await weave(page, what);
        all.push(await saved(page, link));
      }
      return all;
    };
    await openBench(page, bench);
    await ready?.(page);
    const whole = await weaveAll();
    await copyFirst(page);

    await openJob(page, second);
    for (const { link } of files)
      await expect(offer(page, link), `${second} has woven nothing yet`).toHaveCount(0);
    await type(page, 'Dots across', '400');
    await keptAs(page, ({ name }) => name === second);
    const others = await weaveAll();

    await openJob(page, first);
    for (const [index, { link }] of files.entries()) {
      const again = await saved(page, link);
      expect(again.fileName).toBe(whole[index]?.fileName);
      expect(whole[index]?.bytes.equals(again.bytes), `${link}: as it was woven`).toBe(true);
      expect(others[index]?.bytes.equals(again.bytes), `${link}: not the other's`).toBe(false);
    }
    await expect(page.getByText('The job has changed since', { exact: true })).toBeHidden();
  });
