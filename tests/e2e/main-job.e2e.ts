/**
 * The main job in the built studio, as a person does it: frames in, tilt, weave, a file out. What is
 * saved is read back by independent decoders and held against the relations of docs/optics.md.
 */
import { decode } from 'fast-png';
import sharp from 'sharp';
import { usualGapAheadMm } from '../golden/traced-by-bench.ts';
import { expect, test } from './support/kept-demo.ts';
import { addOwnFrames, greys, openStudio, smallPrint, weaveAndSave } from './support/own-frames.ts';
import { saveTo, showPart, type } from './support/page.ts';

/** Relations 2 and 3, written out again, the gap by the tests' own trace: the view at the middle of dot j. */
const viewOfDot = (dot: number, dots: number, dpi: number) => {
  const pitch = (25.4 / 60) * (1 + usualGapAheadMm / 400);
  const x = ((dot + 0.5 - dots / 2) * 25.4) / dpi;
  const u = (((x / pitch + 0.5) % 1) + 1) % 1;
  return { view: Math.floor((1 - u) * 12), toEdge: ((1 - u) * 12) % 1 };
};

/** Share of a slot: a middle so near its edge may go either way, since two traces differ in the fourth digit. */
const AT_EDGE = 0.005;

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
    if (toEdge < AT_EDGE || toEdge > 1 - AT_EDGE) continue;
    checked += 1;
    expect(vips.data[dot * 3], `dot ${dot}`).toBe(greys[view]);
    expect(vips.data[(1799 * 1440 + dot) * 3], `dot ${dot}, last row`).toBe(greys[view]);
  }
  expect(checked).toBeGreaterThan(1400);
});

test('lying ribs weave down the sheet, with dots across and along changing places @wider', async ({
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
    if (toEdge < AT_EDGE || toEdge > 1 - AT_EDGE) continue;
    expect(data[row * 720 * 3], `row ${row}`).toBe(greys[view]);
    expect(data[(row * 720 + 719) * 3], `row ${row}, last dot`).toBe(greys[view]);
  }
});

test('the tilt proof follows the slider, the keys and the pointer @wider', async ({ page }) => {
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
  await showPart(page, 'Loupe');
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

test('Stop ends a weave, and nothing half woven is offered as a sheet', async ({ page }) => {
  await openStudio(page);
  await type(page, 'Print width', '24 in');
  await type(page, 'Print height', '36 in');
  await page.getByRole('button', { name: 'Weave sheet' }).click();
  await expect(page.getByRole('progressbar', { name: 'Weaving' })).toBeVisible();
  await page.getByRole('button', { name: 'Stop', exact: true }).click();
  await expect(page.getByText('Stopped.')).toBeVisible();
  await expect(page.getByRole('link', { name: 'Save sheet' })).toBeHidden();
  // And the studio is ready for another.
  await smallPrint(page);
  await page.getByRole('button', { name: /^Weave sheet/ }).click();
  await expect(page.getByRole('link', { name: 'Save sheet' })).toBeVisible();
});

test('a sheet can go straight to a file the person chose @wider', async ({ page }) => {
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
  await saveTo(page, 'A file I choose');
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
  await expect(page.getByText('The job has changed since', { exact: true })).toBeVisible();
  await page.getByRole('button', { name: /^Undo/ }).click();
  await expect(page.getByText('The job has changed since', { exact: true })).toBeHidden();

  // The file goes with the page; that it was woven does not.
  const tab = page
    .getByRole('navigation', { name: 'Benches' })
    .getByRole('link', { name: /^Weave/ });
  await expect(tab).toHaveAccessibleDescription('Done for this job.');
  await page.reload();
  await expect(tab).toHaveAccessibleDescription('Done for this job.');
});
