/** A scene on the stage: its views fall where relations 5 and 6 have them, and are rendered again only where needed. */
import { readFileSync } from 'node:fs';
import { decode } from 'fast-png';
import { strFromU8, unzipSync } from 'fflate';
import { FloatType } from 'three';
import { EXRLoader } from 'three/addons/loaders/EXRLoader.js';
import type { Page } from 'playwright/test';
import { tracedGap } from '../../src/core/lens/traced.ts';
import { mm } from '../../src/core/units/units.ts';
import { axeFaults } from './support/axe.ts';
import { glbOf, gltfOf } from './support/glb.ts';
import { expect, test } from './support/kept-demo.ts';
import { field, showPart, type } from './support/page.ts';

const button = (page: Page, name: string) => page.getByRole('button', { name, exact: true });
const stage = (page: Page) => page.getByTestId('stage');

/** Thin squares that face the cameras, each in a colour of its own: red, green, blue. */
const SIZE = 0.12;
const markers = [
  [0, 0, 0],
  [-0.4, 0.25, -0.5],
  [0.4, -0.25, 0.5],
] as const;
const thin = [SIZE, SIZE, 0.0001] as const;
const { document, binary } = gltfOf(
  markers.map((middle, at) => ({
    name: `marker ${at}`,
    middle,
    size: thin,
    shine: [0, 1, 2].map((of) => (of === at ? 0.6 : 0)) as [number, number, number],
  })),
);
const glb = { name: 'markers.glb', mimeType: 'model/gltf-binary', buffer: glbOf(document, binary) };

const add = (page: Page, file: { name: string; mimeType: string; buffer: Buffer }) =>
  page.getByLabel('Add scene', { exact: true }).setInputFiles(file);

/** IEC 61966-2-1. */
const linear = (code: number): number =>
  code <= 0.04045 * 255 ? code / 255 / 12.92 : ((code / 255 + 0.055) / 1.055) ** 2.4;

/** Half of where a marker is looked for, pixels: it is 17 wide, and what others mirror of its colour lies further off. */
const NEAR_PX = 16;

/** Where the light of one colour lies near a place of a view, pixels from the upper left. */
const centroid = (
  png: Uint8Array,
  colour: number,
  [aboutX, aboutY]: readonly [number, number],
): readonly [number, number] => {
  const { width, data, channels } = decode(png);
  let [sum, across, down] = [0, 0, 0];
  for (let y = Math.floor(aboutY) - NEAR_PX; y < aboutY + NEAR_PX; y += 1)
    for (let x = Math.floor(aboutX) - NEAR_PX; x < aboutX + NEAR_PX; x += 1) {
      const light = linear(data[channels * (y * width + x) + colour] ?? 0);
      sum += light;
      across += light * (x + 0.5);
      down += light * (y + 0.5);
    }
  return [across / sum, down / sum];
};

interface Kept {
  readonly job: {
    readonly frames: readonly { readonly id: string; readonly made?: { readonly way: string } }[];
  };
  readonly views: readonly Uint8Array[];
  readonly file: Buffer;
}

const savedJob = async (page: Page): Promise<Kept> => {
  await page.evaluate(() => Reflect.deleteProperty(globalThis, 'showSaveFilePicker'));
  const saving = page.waitForEvent('download');
  await button(page, 'Save job file').click();
  const file = readFileSync(await (await saving).path());
  const files = unzipSync(file);
  const json = (path: string) => JSON.parse(strFromU8(files[path] ?? new Uint8Array())) as unknown;
  const job = json('job.json') as Kept['job'];
  const { originals } = json('tiltloom.json') as { originals: { id: string; path: string }[] };
  const pathOf = (id: string) => originals.find((one) => one.id === id)?.path ?? '';
  expect(originals.some(({ path }) => path.endsWith('.glb'))).toBe(true);
  return { job, file, views: job.frames.map(({ id }) => files[pathOf(id)] ?? new Uint8Array()) };
};

/** Depths of a saved map by three's reader, which knows no channel Z: it is handed it under the name of the grey one. */
const depthsOf = (exr: Uint8Array) => {
  const bytes = Buffer.from(exr);
  bytes[bytes.indexOf('Z\0\x02\0\0\0', 0, 'latin1')] = 'Y'.charCodeAt(0);
  const loader = new EXRLoader();
  loader.type = FloatType;
  const { width = 0, height = 0, data } = loader.parse(Uint8Array.from(bytes).buffer);
  const numbers = data as Float32Array;
  const channels = numbers.length / (width * height);
  return (x: number, y: number) =>
    numbers[channels * ((height - 1 - Math.floor(y)) * width + Math.floor(x))] ?? NaN;
};

const PRINT_MM = 60;
const DISTANCE_MM = 400;
const WIDTH = 2;

/** A small print, so that its views are small; the frame 2 m wide. */
const stageMarkers = async (page: Page): Promise<void> => {
  await page.goto('./#/shoot');
  await add(page, glb);
  await expect(stage(page)).toHaveAttribute('data-samples', /\d/);
  // Its key plane goes through the middle of the box around the markers: through the first of them.
  await button(page, 'Frame it from the front').click();
  await type(page, 'Print width', `${PRINT_MM} mm`);
  await type(page, 'Print height', '48 mm');
  await type(page, 'View slots', '3');
  await showPart(page, 'The rig');
  await type(page, 'Width at the key plane', `${WIDTH} m`);
  await showPart(page, 'Gain and cameras');
  await type(page, 'Depth gain', '1');
  await showPart(page, 'The stage');
  await page.getByLabel('Background').selectOption({ label: 'Black' });
};

test('views of a scene fall where the relations have them, and only what no longer fits is rendered again', async ({
  page,
}) => {
  await stageMarkers(page);
  await button(page, 'Render views').click();
  await expect(page.locator('main').getByText(/^3 views rendered\./)).toBeVisible({
    timeout: 120_000,
  });
  const { job, views, file } = await savedJob(page);
  expect(job.frames.map(({ made }) => made?.way)).toEqual(['stage', 'stage', 'stage']);

  // Relation 5: Δ = γ D p / (N g′) at print scale; here γ = 1.
  const pitch = 25.4 / 60;
  const gap = tracedGap({ pitchMm: mm(pitch), thicknessMm: mm(0.84), index: 1.5685 });
  const scale = WIDTH / PRINT_MM;
  const step = (scale * DISTANCE_MM * pitch) / (3 * gap);
  const away = scale * DISTANCE_MM;
  for (const [view, png] of views.entries()) {
    const { width, height } = decode(png);
    const camera = (view - 1) * step;
    for (const [colour, [X, Y, Z]] of markers.entries()) {
      // The scene's z runs towards the eye; the relations count depth away from it.
      const part = -Z / (away - Z);
      const meets = X * (1 - part) + camera * part;
      const high = (WIDTH * 48) / PRINT_MM;
      const expected = [
        width * (0.5 + meets / WIDTH),
        height * (0.5 - (Y * (1 - part)) / high),
      ] as const;
      const [across, down] = centroid(png, colour, expected);
      expect(Math.abs(across - expected[0]), `view ${view}, ${colour}`).toBeLessThan(0.05);
      expect(Math.abs(down - expected[1]), `view ${view}, ${colour}`).toBeLessThan(0.05);
    }
  }

  // The depth of each marker, counted from the row of cameras.
  const saving = page.waitForEvent('download');
  await button(page, 'Save depth maps').click();
  const maps = unzipSync(readFileSync(await (await saving).path()));
  expect(Object.keys(maps)).toEqual(['depth_1.exr', 'depth_2.exr', 'depth_3.exr']);
  const middle = decode(views[1] ?? new Uint8Array());
  const depthAt = depthsOf(maps['depth_2.exr'] ?? new Uint8Array());
  for (const [X, Y, Z] of markers) {
    const share = away / (away - Z);
    const x = middle.width * (0.5 + (X * share) / WIDTH);
    const y = middle.height * (0.5 - (Y * share) / ((WIDTH * 48) / PRINT_MM));
    // Its front lies half its thickness before its middle.
    expect(Math.abs(depthAt(x, y) - (away - Z - thin[2] / 2))).toBeLessThan(1e-4);
  }
  expect(depthAt(2, 2)).toBe(Infinity);

  // Another gain moves the outer cameras and not the middle one.
  await page.getByRole('button', { name: /^Fit the depth: gain/ }).click();
  await expect(page.getByText('These views were rendered for another rig')).toBeVisible();
  await expect(page.getByText(/^2 of 3 views, /)).toBeVisible();
  await button(page, 'Render views').click();
  await expect(
    page.locator('main').getByText(/^2 views rendered, 1 was here already\./),
  ).toBeVisible({
    timeout: 120_000,
  });
  await expect(page.getByText('These views were rendered for another rig')).toHaveCount(0);
  expect(await axeFaults(page)).toEqual([]);

  // In a file the scene travels along; opened as another job, its views still fit.
  const buffer = { name: 'markers.tiltloom.zip', mimeType: '', buffer: file };
  await page.locator('input[aria-label="Open job file"]').setInputFiles(buffer);
  await expect(page.getByText(/From markers\.tiltloom\.zip, with 3 pictures/)).toBeVisible();
  await expect(page.getByText('All views are rendered for this rig.')).toBeVisible();
});

test('a broken scene is named, and the job stays as it was', async ({ page }) => {
  await page.goto('./#/shoot');
  const half = { ...glb, name: 'half.glb', buffer: glb.buffer.subarray(0, 900) };
  await add(page, half);
  await expect(page.getByText(/"half\.glb" breaks off/)).toBeVisible();
  await expect(field(page, 'Width at the key plane')).toBeVisible();
  await expect(stage(page)).toHaveCount(0);
});

test('a scene dropped on another bench comes onto the stage, and arrow keys turn the rig', async ({
  page,
}) => {
  await page.goto('./#/frames');
  await expect(page.getByRole('grid', { name: 'Frames in order' })).toBeVisible();
  const transfer = await page.evaluateHandle((base64) => {
    const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
    const held = new DataTransfer();
    held.items.add(new File([bytes], 'markers.glb'));
    return held;
  }, glb.buffer.toString('base64'));
  await page.locator('h1').dispatchEvent('drop', { dataTransfer: transfer });
  await expect(stage(page)).toHaveAttribute('data-samples', /\d/);
  await stage(page).focus();
  await page.keyboard.press('ArrowRight');
  await expect(page.getByRole('button', { name: /^Undo: turning the rig/ })).toBeVisible();
});
