/**
 * The main job in the built studio, as a person does it: frames in, tilt, weave, a file out. What is
 * saved is read back by independent decoders and held against the relations of docs/optics.md.
 */
import { mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { decode } from 'fast-png';
import type { Page } from 'playwright/test';
import { test as firstVisit } from 'playwright/test';
import sharp from 'sharp';
import { expect, test } from './support/kept-demo.ts';
import { saved, type } from './support/page.ts';

/** Twelve flat frames, each a code of its own, so that every dot tells which frames it shows. */
const greys = Array.from({ length: 12 }, (_, view) => 10 + view * 20);

const makeFrames = async () => {
  const folder = mkdtempSync(join(tmpdir(), 'tiltloom-e2e-'));
  return Promise.all(
    greys.map(async (grey, view) => {
      const path = join(folder, `step_${view + 1}.png`);
      const background = { r: grey, g: 255 - grey, b: 128 };
      await sharp({ create: { width: 200, height: 250, channels: 3, background } })
        .png()
        .toFile(path);
      return path;
    }),
  );
};

/** A small print, so that a test is quick: 2 × 2.5 in at 720 dpi. */
const smallPrint = async (page: Page) => {
  await type(page, 'Print width', '2 in');
  await type(page, 'Print height', '2.5 in');
};

const openStudio = async (page: Page, bench = 'weave') => {
  await page.goto(`./#/${bench}`);
  await expect(page.getByText('12 for 12 slots')).toBeVisible();
};

const addOwnFrames = async (page: Page) => {
  await openStudio(page, 'frames');
  await page.getByRole('button', { name: 'Remove all' }).click();
  await page
    .locator('input[type=file]')
    .first()
    .setInputFiles(await makeFrames());
  await expect(page.getByText('step_12.png').first()).toBeVisible();
  await expect(page.getByText('12 for 12 slots')).toBeVisible();
};

const weaveAndSave = async (page: Page) => {
  await page.goto('./#/weave');
  await page.getByRole('button', { name: 'Weave sheet' }).click();
  const { bytes, fileName } = await saved(page, 'Save sheet');
  return { file: bytes, name: fileName };
};

/** Relations 2 and 3, written out again: the view at the middle of dot j. */
const viewOfDot = (dot: number, dots: number, dpi: number) => {
  const pitch = (25.4 / 60) * (1 + 0.84 / 1.5685 / 400);
  const x = ((dot + 0.5 - dots / 2) * 25.4) / dpi;
  const u = (((x / pitch + 0.5) % 1) + 1) % 1;
  return { view: Math.floor((1 - u) * 12), toEdge: ((1 - u) * 12) % 1 };
};

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
    expect(name).toMatch(/^The old glasshouse 59\.9\d+ lpi at 400 mm\.png$/);
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

test('own frames, woven upright: every dot shows the view it should, to both decoders', async ({
  page,
}) => {
  await addOwnFrames(page);
  await smallPrint(page);
  await page.goto('./#/weave');
  await page.getByRole('radio', { name: 'Crisp' }).check();
  const { file } = await weaveAndSave(page);
  const vips = await sharp(file).raw().toBuffer({ resolveWithObject: true });
  expect(vips.info).toMatchObject({ width: 1440, height: 1800, channels: 3 });
  const fast = decode(file, { checkCrc: true });
  expect(Buffer.from(fast.data as Uint8Array).equals(vips.data)).toBe(true);
  expect(fast.resolution).toMatchObject({ x: 28346, y: 28346, unit: 1 });
  let checked = 0;
  for (let dot = 0; dot < 1440; dot += 1) {
    const { view, toEdge } = viewOfDot(dot, 1440, 720);
    // A middle that falls on a slot's edge may go either way by rounding.
    if (toEdge < 1e-6 || toEdge > 1 - 1e-6) continue;
    checked += 1;
    expect(vips.data[dot * 3], `dot ${dot}`).toBe(greys[view]);
    expect(vips.data[(1799 * 1440 + dot) * 3], `dot ${dot}, last row`).toBe(greys[view]);
  }
  expect(checked).toBeGreaterThan(1400);
});

test('lying ribs weave down the sheet, with dots across and along changing places', async ({
  page,
}) => {
  await addOwnFrames(page);
  await smallPrint(page);
  await page.getByRole('radio', { name: 'Lying' }).check();
  await type(page, 'Dots along', '360');
  await page.goto('./#/weave');
  await page.getByRole('radio', { name: 'Crisp' }).check();
  const { file } = await weaveAndSave(page);
  const { data, info } = await sharp(file).raw().toBuffer({ resolveWithObject: true });
  // 2 in at 360 along the ribs, 2.5 in at 720 across them.
  expect(info).toMatchObject({ width: 720, height: 1800 });
  expect(decode(file).resolution).toMatchObject({ x: 14173, y: 28346 });
  for (let row = 0; row < 1800; row += 7) {
    const { view, toEdge } = viewOfDot(row, 1800, 720);
    if (toEdge < 1e-6 || toEdge > 1 - 1e-6) continue;
    expect(data[row * 720 * 3], `row ${row}`).toBe(greys[view]);
    expect(data[(row * 720 + 719) * 3], `row ${row}, last dot`).toBe(greys[view]);
  }
});

test('the tilt proof follows the slider, the keys and the pointer', async ({ page }) => {
  await addOwnFrames(page);
  await page.goto('./#/weave');
  await expect(page.getByText(/Preparing frames/)).toBeHidden();
  const proof = page.getByTestId('tilt-proof');
  const redInMiddle = async () => {
    const shot = await sharp(await proof.screenshot())
      .raw()
      .toBuffer({ resolveWithObject: true });
    const { width, height, channels } = shot.info;
    return shot.data[(Math.floor(height / 2) * width + Math.floor(width / 2)) * channels] ?? NaN;
  };
  const slider = page.getByLabel('Tilt', { exact: true });
  await slider.fill('-0.5');
  // Eye to the left: the left cameras' views, the first frames, dark; to the right the last, light.
  // Half way, well inside the zone: at its ends a lens this strong mixes the first with the last.
  await expect.poll(redInMiddle).toBeLessThan(100);
  await slider.fill('0.5');
  await expect.poll(redInMiddle).toBeGreaterThan(160);
  await proof.focus();
  await page.keyboard.press('Home');
  await expect(slider).toHaveValue('-1');
  await page.keyboard.press('ArrowRight');
  await expect(slider).not.toHaveValue('-1');
  const box = (await proof.boundingBox()) ?? { x: 0, y: 0, width: 0, height: 0 };
  await page.mouse.move(box.x + box.width * 0.3, box.y + box.height / 2);
  await page.mouse.down();
  await page.mouse.move(box.x + box.width * 0.95, box.y + box.height / 2, { steps: 4 });
  await page.mouse.up();
  await expect.poll(async () => Number(await slider.inputValue())).toBeGreaterThan(0.2);
});

test('the loupe shows the dots that the sheet will have', async ({ page }) => {
  await addOwnFrames(page);
  await smallPrint(page);
  await page.goto('./#/weave');
  await page.getByRole('radio', { name: 'Crisp' }).check();
  await page.getByRole('radio', { name: '1:1' }).check();
  const canvas = page.getByTestId('loupe').locator('canvas');
  await expect(canvas).toBeVisible();
  const readLoupe = () =>
    canvas.evaluate((element) => {
      const from = element as HTMLCanvasElement;
      const pixels = from.getContext('2d')?.getImageData(0, 0, from.width, 1).data ?? [];
      return { width: from.width, red: Array.from(pixels).filter((_, i) => i % 4 === 0) };
    });
  await expect.poll(async () => (await readLoupe()).width).toBeGreaterThan(300);
  const { width, red } = await readLoupe();
  // Around the middle of the sheet, unless it was moved.
  const left = Math.round(720 - width / 2);
  for (let x = 0; x < width; x += 1) {
    const { view, toEdge } = viewOfDot(left + x, 1440, 720);
    if (toEdge > 1e-6 && toEdge < 1 - 1e-6) expect(red[x], `dot ${left + x}`).toBe(greys[view]);
  }
});

test('Stop ends a weave, and nothing half woven is offered', async ({ page }) => {
  await openStudio(page);
  await type(page, 'Print width', '24 in');
  await type(page, 'Print height', '36 in');
  await page.getByRole('button', { name: 'Weave sheet' }).click();
  await expect(page.getByRole('progressbar', { name: 'Weaving' })).toBeVisible();
  await page.getByRole('button', { name: 'Stop', exact: true }).click();
  await expect(page.getByText('Nothing was kept of the unfinished sheet')).toBeVisible();
  await expect(page.getByRole('link', { name: 'Save sheet' })).toBeHidden();
  const left = await page.evaluate(async () => {
    const root = await navigator.storage.getDirectory();
    const names: string[] = [];
    for await (const folder of root.values())
      if (folder.name === 'sheets' && folder.kind === 'directory')
        for await (const entry of (folder as FileSystemDirectoryHandle).values())
          names.push(entry.name);
    return names;
  });
  expect(left).toEqual([]);
  // And the studio is ready for another.
  await smallPrint(page);
  await page.getByRole('button', { name: 'Weave sheet' }).click();
  await expect(page.getByRole('link', { name: 'Save sheet' })).toBeVisible();
});

test('a sheet can go straight to a file the person chose', async ({ page }) => {
  // The browser's own dialog cannot be driven: a handle on the private disk stands in for its answer.
  await page.addInitScript(() => {
    Object.assign(globalThis, {
      showSaveFilePicker: async (options: { suggestedName: string }) => {
        const root = await navigator.storage.getDirectory();
        return root.getFileHandle(options.suggestedName, { create: true });
      },
    });
  });
  await openStudio(page);
  await smallPrint(page);
  await page.getByRole('radio', { name: 'A file I choose' }).check();
  await page.getByRole('button', { name: 'Weave sheet' }).click();
  await expect(page.getByText(/^Saved as/)).toBeVisible();
  const bytes = await page.evaluate(async () => {
    const root = await navigator.storage.getDirectory();
    for await (const entry of root.values())
      if (entry.name.endsWith('.png')) {
        const file = await (entry as FileSystemFileHandle).getFile();
        return Array.from(new Uint8Array(await file.arrayBuffer()));
      }
    return [];
  });
  expect(await sharp(Buffer.from(bytes)).metadata()).toMatchObject({ width: 1440, height: 1800 });
});

test('a changed job marks the woven sheet as out of date', async ({ page }) => {
  await openStudio(page);
  await smallPrint(page);
  await page.getByRole('button', { name: 'Weave sheet' }).click();
  await expect(page.getByRole('link', { name: 'Save sheet' })).toBeVisible();
  await type(page, 'Viewing distance', '500 mm');
  await expect(page.getByText('The job has changed since')).toBeVisible();
  await page.getByRole('button', { name: /^Undo/ }).click();
  await expect(page.getByText('The job has changed since')).toBeHidden();
});
