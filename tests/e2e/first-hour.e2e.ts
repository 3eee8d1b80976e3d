/**
 * The first hour in the built studio: a stranger's own frames on an empty profile, handed over in every way and at
 * any moment. Each visit ends with their own sheet under their own name; the demo stays whole and is never mixed
 * with it. How many presses it takes is counted: the drop, Weave sheet, Save sheet.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { strToU8, zipSync } from 'fflate';
import { expect, test } from './support/any-visit.ts';
import { field, type } from './support/page.ts';
import { shrinkDemo } from './support/shrunk-demo.ts';
import {
  VIEWS,
  apart,
  drag,
  drop,
  firstVisit,
  holdDemo,
  jobsOnDisk,
  renders,
  slowed,
  weaveOwn,
} from './support/stranger.ts';

const onSlow = (rate: number) => (rate === 1 ? '' : ', on a processor six times slower @wider');

test.describe('own frames, handed over', () => {
  for (const rate of [1, 6])
    test(`as a folder on Weave, while the demo comes: three presses${onSlow(rate)}`, async ({
      page,
    }, info) => {
      const letCome = await holdDemo(page);
      await renders(info);
      await slowed(page, rate);
      await firstVisit(page);
      await drop(page, [info.outputPath('terrace gate')]);
      await weaveOwn(page, 'terrace gate');
      letCome();
      await apart(page, 'terrace gate');
      await expect(field(page, 'Job name')).toHaveValue('terrace gate');
    });

  for (const bench of ['plan', 'shoot', 'calibrate', 'frames', 'mount', 'mend'])
    test(`as files on ${bench}${bench === 'plan' ? '' : ' @wider'}`, async ({ page }, info) => {
      await shrinkDemo(page, 60);
      await firstVisit(page, bench);
      await drop(page, await renders(info));
      await expect(page.getByText('“gate” is a job of your own')).toBeVisible();
      await page.goto('./#/weave');
      await weaveOwn(page, 'gate');
      await apart(page, 'gate');
    });

  test('let go just as what lies under them leaves the page', async ({ page }, info) => {
    await shrinkDemo(page, 60);
    await firstVisit(page);
    await expect(page.getByRole('button', { name: 'Weave sheet' })).toBeVisible();
    await page.evaluate(() => {
      const passing = document.createElement('p');
      passing.style.cssText = 'position: fixed; inset: 0';
      document.querySelector('main')?.append(passing);
    });
    const letGo = await drag(page, await renders(info));
    // At the root, so that the page has heard of the drag by then.
    await page.evaluate(() =>
      document
        .querySelector('#root')
        ?.addEventListener('dragover', ({ target }) => (target as Element).remove(), {
          capture: true,
          once: true,
        }),
    );
    await letGo();
    await weaveOwn(page, 'gate');
    // A drop that no part of a page takes opens the files in tabs of their own.
    expect(page.context().pages()).toHaveLength(1);
  });

  test('as a zip @wider', async ({ page }, info) => {
    await shrinkDemo(page, 60);
    const paths = await renders(info);
    const content = Object.fromEntries(
      paths.map((path, at) => [`gate_${at + 1}.png`, new Uint8Array(readFileSync(path))]),
    );
    const zip = info.outputPath('terrace gate.zip');
    writeFileSync(zip, zipSync({ ...content, 'notes.txt': strToU8('low tide at noon') }));
    await firstVisit(page);
    await drop(page, [zip]);
    await weaveOwn(page, 'terrace gate');
    await apart(page, 'terrace gate');
  });

  test('as a job file @wider', async ({ page, browser, baseURL }, info) => {
    // Without the picker a job file goes the way of every download.
    await page.addInitScript(() => Reflect.deleteProperty(globalThis, 'showSaveFilePicker'));
    await shrinkDemo(page, 60);
    await firstVisit(page);
    await drop(page, await renders(info));
    await expect(field(page, 'Job name')).toHaveValue('gate');
    await expect(page.getByText(`${VIEWS} for ${VIEWS} slots`)).toBeVisible();
    await type(page, 'Job name', 'Sea gate');
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Save job file', exact: true }).click(),
    ]);
    const path = info.outputPath(download.suggestedFilename());
    await download.saveAs(path);
    const elsewhere = await browser.newContext({ baseURL: baseURL ?? '', serviceWorkers: 'block' });
    const fresh = await elsewhere.newPage();
    await shrinkDemo(fresh, 60);
    await firstVisit(fresh);
    await drop(fresh, [path]);
    await weaveOwn(fresh, 'Sea gate');
    await apart(fresh, 'Sea gate');
    await elsewhere.close();
  });

  test('pasted', async ({ page }, info) => {
    await shrinkDemo(page, 60);
    const files = (await renders(info)).map((path, at) => ({
      name: `gate_${at + 1}.png`,
      base64: readFileSync(path).toString('base64'),
    }));
    await firstVisit(page);
    // The browser's own paste of files from the system cannot be driven; the event is the one it sends.
    await page.evaluate((all) => {
      const clipboardData = new DataTransfer();
      for (const { name, base64 } of all)
        clipboardData.items.add(
          new File([Uint8Array.from(atob(base64), (c) => c.charCodeAt(0))], name, {
            type: 'image/png',
          }),
        );
      document.body.dispatchEvent(new ClipboardEvent('paste', { clipboardData, bubbles: true }));
    }, files);
    await weaveOwn(page, 'gate');
  });

  test('opened from the system, with the studio installed @wider', async ({ page }, info) => {
    await shrinkDemo(page, 60);
    const files = (await renders(info)).map((path, at) => ({
      name: `gate_${at + 1}.png`,
      base64: readFileSync(path).toString('base64'),
    }));
    // Only an installed studio is launched with files, and none can be installed here: a queue of our own.
    await page.addInitScript((all) => {
      const handles = all.map(({ name, base64 }) => ({
        kind: 'file',
        getFile: async () =>
          new File([Uint8Array.from(atob(base64), (c) => c.charCodeAt(0))], name, {
            type: 'image/png',
          }),
      }));
      const setConsumer = (take: (launch: object) => void) => take({ files: handles });
      Object.defineProperty(globalThis, 'launchQueue', { value: { setConsumer } });
    }, files);
    await page.goto('./#/weave');
    await weaveOwn(page, 'gate');
    await apart(page, 'gate');
  });

  test('by keys alone @wider', async ({ page }, info) => {
    await shrinkDemo(page, 60);
    await firstVisit(page, 'frames');
    const paths = await renders(info);
    const chooser = page.waitForEvent('filechooser');
    await page.locator('button', { hasText: 'Add frames' }).focus();
    await page.keyboard.press('Enter');
    await (await chooser).setFiles(paths);
    await expect(field(page, 'Job name')).toHaveValue('gate');
    await page.goto('./#/weave');
    await weaveOwn(page, 'gate');
    await apart(page, 'gate');
  });

  test('on a phone @wider', async ({ browser, baseURL }, info) => {
    const phone = await browser.newContext({
      baseURL: baseURL ?? '',
      serviceWorkers: 'block',
      viewport: { width: 390, height: 844 },
      hasTouch: true,
    });
    const page = await phone.newPage();
    await shrinkDemo(page, 60);
    await firstVisit(page, 'frames');
    await page.locator('input[aria-label="Add frames"]').setInputFiles(await renders(info));
    await expect(field(page, 'Job name')).toHaveValue('gate');
    await page.goto('./#/weave');
    await weaveOwn(page, 'gate');
    await phone.close();
  });
});

test.describe('while the demo is being laid in', () => {
  for (const rate of [1, 6])
    test(`what is typed stands, in a copy of the person’s own, which gets the frames${onSlow(rate)}`, async ({
      page,
    }) => {
      const letCome = await holdDemo(page);
      await slowed(page, rate);
      await firstVisit(page);
      await type(page, 'Viewing distance', '555 mm');
      await type(page, 'Lens thickness', '0.9 mm');
      letCome();
      await expect(page.getByText('12 for 12 slots')).toBeVisible();
      await expect(field(page, 'Viewing distance')).toHaveValue('555');
      await expect(field(page, 'Lens thickness')).toHaveValue('0.9');
      await expect(field(page, 'Job name')).toHaveValue('My copy of The old glasshouse');
      for (let step = 0; step < 2; step += 1)
        await page.getByRole('button', { name: /^Undo/ }).click();
      await expect(field(page, 'Viewing distance')).toHaveValue('400');
      await expect(page.getByText('12 for 12 slots')).toBeVisible();
      await expect
        .poll(async () =>
          [...(await jobsOnDisk(page)).values()]
            .map(({ name, frames }) => `${name} ${frames.length}`)
            .sort(),
        )
        .toEqual(['My copy of The old glasshouse 12', 'The old glasshouse 12']);
    });

  test('another demo, asked for, is the one that is shown', async ({ page }) => {
    const letCome = await holdDemo(page);
    await firstVisit(page, 'frames');
    // Without frames the bench offers the demos at once.
    await page.getByRole('button', { name: 'Open The dive' }).click();
    await expect(field(page, 'Job name')).toHaveValue('The dive');
    letCome();
    await expect(page.getByText('kingfisher_12').first()).toBeVisible();
    await expect
      .poll(async () =>
        [...(await jobsOnDisk(page)).values()]
          .map(({ name, frames }) => `${name} ${frames.length}`)
          .sort(),
      )
      .toEqual(['The dive 12', 'The old glasshouse 12']);
    await expect(field(page, 'Job name')).toHaveValue('The dive');
  });

  test('a reload keeps what was typed, and the copy gets the frames', async ({ page }) => {
    const letCome = await holdDemo(page);
    await firstVisit(page);
    await type(page, 'Viewing distance', '555 mm');
    // A reload before the copy's beginning is on the disk leaves nothing for undo to go back to; what was typed it keeps.
    await expect
      .poll(async () => [...(await jobsOnDisk(page)).values()].map(({ name }) => name))
      .toContain('My copy of The old glasshouse');
    await page.reload();
    letCome();
    await expect(field(page, 'Viewing distance')).toHaveValue('555');
    await expect(field(page, 'Job name')).toHaveValue('My copy of The old glasshouse');
    await expect(page.getByText('12 for 12 slots')).toBeVisible();
    await page.getByRole('button', { name: 'Undo: viewing distance 400 → 555 mm' }).click();
    await expect(field(page, 'Viewing distance')).toHaveValue('400');
    await expect(page.getByText('12 for 12 slots')).toBeVisible();
  });

  test('two tabs show it, and it is kept once', async ({ page, context }) => {
    const letCome = await holdDemo(page);
    const other = await context.newPage();
    await Promise.all([firstVisit(page), firstVisit(other)]);
    letCome();
    for (const tab of [page, other]) {
      await expect(tab.getByText('12 for 12 slots')).toBeVisible();
      await expect(tab.getByText('Only to look at')).toHaveCount(0);
    }
    await expect.poll(async () => [...(await jobsOnDisk(page)).values()].length).toBe(1);
    await type(other, 'Viewing distance', '555 mm');
    await expect(field(other, 'Job name')).toHaveValue('My copy of The old glasshouse');
    await expect(field(page, 'Job name')).toHaveValue('The old glasshouse');
  });
});

test('frames that come to a job which has some: asked once, then added, replaced, or a job of their own', async ({
  page,
}, info) => {
  await shrinkDemo(page, 60);
  await firstVisit(page);
  await drop(page, await renders(info));
  await expect(field(page, 'Job name')).toHaveValue('gate');
  const question = page.getByRole('dialog', { name: /6 frames of “gate”/ });
  const slots = (count: number) =>
    expect(page.getByText(`${count} for ${VIEWS} slots`)).toBeVisible();
  await slots(6);
  const more = await renders(info, 'later');
  await drop(page, more);
  await question.getByRole('button', { name: 'Leave it' }).click();
  await slots(6);
  await drop(page, [info.outputPath('later')]);
  const later = page.getByRole('dialog', { name: /6 frames of “later”/ });
  await later.getByRole('button', { name: 'Replace its frames' }).click();
  await expect(
    page.getByRole('button', { name: /^Undo: 6 frames in place of others/ }),
  ).toBeVisible();
  await slots(6);
  await drop(page, [info.outputPath('later')]);
  await later.getByRole('button', { name: 'Begin a new job' }).click();
  await expect(field(page, 'Job name')).toHaveValue('later');
  await slots(6);
});
