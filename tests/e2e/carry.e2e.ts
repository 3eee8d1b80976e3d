/** A job carried in one file, and files that are bad: what is good stays, what is bad is named. */
import { readFileSync } from 'node:fs';
import type { Download, Page } from 'playwright/test';
import sharp from 'sharp';
import { unzipSync, zipSync } from 'fflate';
import { expect, test } from './support/kept-demo.ts';

const picture = (number: number, width = 120, height = 150) =>
  sharp({
    create: { width, height, channels: 3, background: { r: 20 * number, g: 90, b: 160 } },
  });
const png = (number: number) => picture(number).png().toBuffer();
const file = (name: string, buffer: Buffer) => ({ name, mimeType: '', buffer });

const rows = (page: Page) => page.getByRole('grid', { name: 'Frames in order' }).getByRole('row');
const notes = (page: Page) =>
  page.locator('section', {
    has: page.getByRole('heading', { name: 'Worth knowing', exact: true }),
  });
const add = (page: Page, files: ReturnType<typeof file>[]) =>
  page.locator('input[aria-label="Add frames"]').setInputFiles(files);
const open = (page: Page, name: string, buffer: Buffer) =>
  page.locator('input[aria-label="Open job file"]').setInputFiles(file(name, buffer));
const mark = (page: Page) =>
  page.getByRole('complementary', { name: 'Job sheet' }).getByRole('img').first();

const begun = async (page: Page) => {
  await page.goto('#/frames');
  await expect(rows(page)).toHaveCount(12);
  await page.getByRole('button', { name: 'Remove all' }).click();
  await expect(page.getByText('Drop frames here')).toBeVisible();
};

const entriesOf = async (download: Download) =>
  unzipSync(new Uint8Array(readFileSync(await download.path())));
const json = (bytes: Uint8Array | undefined) =>
  JSON.parse(Buffer.from(bytes ?? []).toString()) as Record<string, unknown>;

/** Pictures by the name they were added under. */
const picturesOf = (entries: Record<string, Uint8Array>) =>
  Object.fromEntries(
    (json(entries['tiltloom.json'])['originals'] as { path: string; name: string }[]).map(
      ({ path, name }) => [name, Buffer.from(entries[path] ?? [])],
    ),
  );

test('bad pictures are each named while the good ones stay, and a job comes back from its file as it was', async ({
  page,
}) => {
  // Without the picker a job file goes the way of every download.
  await page.addInitScript(() => Reflect.deleteProperty(globalThis, 'showSaveFilePicker'));
  await begun(page);

  const giant = await png(3);
  giant.writeUInt32BE(90_000, 16);
  const turned = await picture(4).toColourspace('rgb16').png().toBuffer();
  turned[turned.indexOf('IDAT') + 20]! ^= 8;
  const good = { 'pose_01.png': await png(1), 'pose_02.png': await png(2) };
  await add(page, [
    ...Object.entries(good).map(([name, bytes]) => file(name, bytes)),
    file('cut.jpg', (await picture(5).jpeg().toBuffer()).subarray(0, 300)),
    file('giant.png', giant),
    file('mislabelled.png', Buffer.from('%PDF-1.7 a leaflet')),
    file('render.exr', Buffer.from([0x76, 0x2f, 0x31, 0x01, 2, 0, 0, 0, 65, 66])),
    file('scan.tif', Buffer.from('II*\0\xff\xff\xff\x7f', 'latin1')),
    file('turned.png', turned),
  ]);
  await expect(rows(page)).toHaveCount(2);
  for (const [name, reason] of [
    ['cut.jpg', /breaks off/],
    ['giant.png', /90000 × 150 pixels/],
    ['mislabelled.png', /is a PDF/],
    ['render.exr', /is damaged/],
    ['scan.tif', /points outside the file/],
    ['turned.png', /is damaged/],
  ] as const)
    await expect(notes(page).getByText(name).first()).toContainText(reason);
  // The workers are alive.
  await add(page, [file('pose_03.png', await png(3))]);
  await expect(rows(page)).toHaveCount(3);

  const name = page.getByRole('textbox', { name: 'Job name' });
  // Not left before it is saved: what is typed is in the file all the same.
  await name.fill('Kingfisher at the weir');
  await expect(mark(page)).toHaveAccessibleName('Not saved to a file yet');

  // Hostile: refused, and nothing is changed.
  await open(
    page,
    'gift.tiltloom.zip',
    Buffer.from(zipSync({ '../../job.json': new Uint8Array(9) })),
  );
  await expect(page.getByRole('alert')).toContainText(
    /gift\.tiltloom\.zip.* was not opened.*“\.\.\/\.\.\/job\.json”/,
  );
  await expect(rows(page)).toHaveCount(3);
  await expect(name).toHaveValue('Kingfisher at the weir');

  const saving = page.waitForEvent('download');
  await page.keyboard.press('Control+s');
  const saved = await saving;
  expect(saved.suggestedFilename()).toBe('Kingfisher at the weir.tiltloom.zip');
  const first = await entriesOf(saved);
  expect(picturesOf(first)).toEqual({ ...good, 'pose_03.png': await png(3) });
  await expect(mark(page)).toHaveAccessibleName(/^Saved to Kingfisher/);

  await page.getByRole('button', { name: 'Reverse order' }).click();
  await expect(mark(page)).toHaveAccessibleName(/^Changed since it was saved to Kingfisher/);
  await page.keyboard.press('Control+z');
  await expect(mark(page)).toHaveAccessibleName(/^Saved to/);
  await page.getByRole('button', { name: 'Reverse order' }).click();

  // Let go anywhere on the page.
  const bytes = readFileSync(await saved.path());
  const transfer = await page.evaluateHandle((base64) => {
    const data = new DataTransfer();
    const content = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
    data.items.add(new File([content], 'weir.tiltloom (1).zip', { type: 'application/zip' }));
    return data;
  }, bytes.toString('base64'));
  await page.locator('h1').dispatchEvent('drop', { dataTransfer: transfer });
  await expect(
    page.getByRole('status').getByText('“Kingfisher at the weir 2” is open'),
  ).toBeVisible();
  // The first of that name is kept, so the second has a number; its file keeps its own name.
  await expect(name).toHaveValue('Kingfisher at the weir 2');
  await expect(rows(page).first()).toHaveAccessibleName(/pose_01/);
  await expect(mark(page)).toHaveAccessibleName('Saved to weir.tiltloom (1).zip');

  const again = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save job file' }).click();
  const savedAgain = await again;
  expect(savedAgain.suggestedFilename()).toBe('weir.tiltloom (1).zip');
  const second = await entriesOf(savedAgain);
  expect(picturesOf(second)).toEqual(picturesOf(first));
  const withoutIds = (entries: Record<string, Uint8Array>) => {
    const job = json(entries['job.json']);
    const frames = (job['frames'] as Record<string, unknown>[]).map(({ id: _id, ...rest }) => rest);
    return { ...job, frames };
  };
  expect(withoutIds(second)).toEqual({ ...withoutIds(first), name: 'Kingfisher at the weir 2' });
});

test('a chosen file is saved to again without asking', async ({ page }) => {
  await page.addInitScript(() => {
    const asked = { times: 0 };
    Object.assign(globalThis, {
      asked,
      showSaveFilePicker: async () => {
        asked.times += 1;
        const root = await navigator.storage.getDirectory();
        return root.getFileHandle(`chosen-${asked.times}.tiltloom.zip`, { create: true });
      },
    });
  });
  await page.goto('#/frames');
  await expect(rows(page)).toHaveCount(12);
  const sizes = () =>
    page.evaluate(async () => {
      const root = await navigator.storage.getDirectory();
      const times = (globalThis as unknown as { asked: { times: number } }).asked.times;
      return Promise.all(
        Array.from(
          { length: times },
          async (_, i) =>
            (await (await root.getFileHandle(`chosen-${i + 1}.tiltloom.zip`)).getFile()).size >
            10_000,
        ),
      );
    });
  const said = page.getByRole('status').getByText('The job is saved');
  for (const [press, expected] of [
    ['Save job file', [true]],
    ['Save job file', [true]],
    ['Save as', [true, true]],
  ] as const) {
    await page.getByRole('button', { name: press }).click();
    await expect(said).toBeVisible();
    await page.getByRole('button', { name: 'Dismiss' }).click();
    await expect(said).toHaveCount(0);
    expect(await sizes()).toEqual(expected);
  }
});
