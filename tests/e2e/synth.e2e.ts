/** One render of the lighthouse and its depth map become twelve views, and the tilt proof shows depth. */
import { readFileSync } from 'node:fs';
import { decode } from 'fast-png';
import { strToU8, unzipSync, zipSync } from 'fflate';
import type { Page } from 'playwright/test';
import sharp from 'sharp';
import { axeFaults } from './support/axe.ts';
import { expect, test } from './support/kept-demo.ts';
import { atRest, pressOnSight, showPart, type } from './support/page.ts';

const scene = (file: string) =>
  new URL(`../../demo-scenes/lighthouse/${file}`, import.meta.url).pathname;
const rows = (page: Page) => page.getByRole('grid', { name: 'Frames in order' }).getByRole('row');
const button = (page: Page, name: string) => page.getByRole('button', { name, exact: true });

interface Shot {
  readonly data: Buffer;
  readonly width: number;
  readonly height: number;
}
const shotAt = async (page: Page, tilt: string): Promise<Shot> => {
  await page.getByLabel('Tilt', { exact: true }).fill(tilt);
  const proof = page.getByTestId('tilt-proof').locator('canvas');
  const png = await atRest(
    page,
    () => proof.screenshot(),
    (a, b) => a.equals(b),
  );
  const { data, info } = await sharp(png).greyscale().raw().toBuffer({ resolveWithObject: true });
  return { data, width: info.width, height: info.height };
};

/** Pixels to the right by which a place (shares of the picture) moves between two shots: least misfit. */
const movesBy = (from: Shot, to: Shot, [left, top, right, bottom]: readonly number[]): number => {
  let [best, least] = [0, Infinity];
  for (let dx = -14; dx <= 14; dx += 1) {
    let misfit = 0;
    for (let y = Math.round((top ?? 0) * from.height); y < (bottom ?? 0) * from.height; y += 1)
      for (let x = Math.round((left ?? 0) * from.width); x < (right ?? 0) * from.width; x += 1)
        misfit += Math.abs(
          (from.data[y * from.width + x] ?? 0) - (to.data[y * from.width + x + dx] ?? 0),
        );
    if (misfit < least) [least, best] = [misfit, dx];
  }
  return best;
};

const made = (page: Page) =>
  page.getByRole('region', { name: 'What was filled in frames that were made' });
const chooseMade = (page: Page, place: number) =>
  made(page)
    .getByLabel('Made frame')
    .selectOption({ label: `${place} · lighthouse_06 made ${place} of 12` });

/** How strongly each place of the overlay is marked, 0 … 255. */
const marksOver = async (page: Page): Promise<Buffer> => {
  const latin = await made(page)
    .locator('canvas')
    .evaluate((canvas: HTMLCanvasElement) => {
      const { width, height } = canvas;
      const { data } = canvas.getContext('2d')!.getImageData(0, 0, width, height);
      const line = (y: number) =>
        String.fromCharCode(
          ...data.subarray(4 * y * width, 4 * (y + 1) * width).filter((_, i) => i % 4 === 3),
        );
      return Array.from({ length: height }, (_, y) => line(y)).join('');
    });
  return Buffer.from(latin, 'latin1');
};

/**
 * What of camera 12 camera 6 does not see, by the depths that the scene's program rendered for each: it
 * sees something else where the thing would stand. Half the frame's size.
 * @param slack pixels by which things may be off
 */
const hiddenFrom6 = (slack: number) => {
  const [six, twelve] = ['06', '12'].map((view) =>
    decode(readFileSync(scene(`depth/lighthouse_depth_${view}.png`))),
  ) as [ReturnType<typeof decode>, ReturnType<typeof decode>];
  const { width, height } = six;
  // scene.json: black −140 mm, white 360 mm; 400 mm from a print 203.2 mm wide; cameras 0.895871 mm apart.
  const part = (code: number) => {
    const z = -140 + (500 * code) / 65535;
    return z / (400 + z);
  };
  const slide = (6 * 0.895871 * width) / 203.2;
  const hidden = (x: number, y: number): boolean => {
    const own = part(twelve.data[y * width + x] ?? 0);
    const at = Math.round(x - slide * own);
    let nearest = Infinity;
    for (let u = Math.max(0, at - slack); u <= Math.min(width - 1, at + slack); u += 1)
      nearest = Math.min(nearest, Math.abs(part(six.data[y * width + u] ?? 0) - own));
    return slide * nearest > 0.75;
  };
  return { width, height, hidden };
};

/** Of what one says, the share that the other says as well within two pixels along the row. */
const metShare = (
  { width, height }: { width: number; height: number },
  of: (x: number, y: number) => boolean,
  near: (x: number, y: number) => boolean,
): number => {
  let [all, met] = [0, 0];
  for (let y = 0; y < height; y += 1)
    for (let x = 2; x < width - 2; x += 1) {
      if (!of(x, y)) continue;
      all += 1;
      if ([-2, -1, 0, 1, 2].some((side) => near(x + side, y))) met += 1;
    }
  return met / all;
};

/** The job file with its last picture, which says where a frame was filled, made 8 × 8. */
const withOddPlaces = async (file: Buffer): Promise<Buffer> => {
  const entries = unzipSync(new Uint8Array(file));
  const manifest = JSON.parse(Buffer.from(entries['tiltloom.json'] ?? []).toString()) as {
    originals: { path: string; bytes: number }[];
  };
  const last = manifest.originals.at(-1)!;
  const odd = await sharp({ create: { width: 8, height: 8, channels: 3, background: 'grey' } })
    .png()
    .toBuffer();
  entries[last.path] = new Uint8Array(odd);
  last.bytes = odd.length;
  entries['tiltloom.json'] = strToU8(JSON.stringify(manifest));
  return Buffer.from(zipSync(entries, { level: 0 }));
};

test('a single render and its depths make a set, marked as made, that has depth when tilted @wider', async ({
  page,
}) => {
  await page.goto('./#/frames');
  await expect(rows(page)).toHaveCount(12);
  await showPart(page, 'Demos');
  await button(page, 'Open Fog coming in').click();
  await expect(rows(page).first()).toHaveAttribute('aria-label', /lighthouse_01/);
  await button(page, 'Remove all').click();
  await page.locator('input[type=file]').first().setInputFiles(scene('lighthouse_06.png'));
  await expect(rows(page)).toHaveCount(1);

  // A picture of another shape is refused by name, and nothing is lost.
  await page.getByLabel('Depth map', { exact: true }).setInputFiles({
    name: 'other_z.png',
    mimeType: 'image/png',
    buffer: await sharp({ create: { width: 64, height: 48, channels: 3, background: 'grey' } })
      .png()
      .toBuffer(),
  });
  await expect(page.getByText(/"other_z\.png" is 64 × 48 pixels/)).toBeVisible();

  await page
    .getByLabel('Depth map', { exact: true })
    .setInputFiles(scene('depth/lighthouse_depth_06.png'));
  await page.getByLabel('Grey means').selectOption({ label: 'Black is near' });
  // demo-scenes/lighthouse/scene.json: black is −140 mm, white 360 mm; the render is camera 6 of 12.
  await type(page, 'Nearest depth', '-140');
  await type(page, 'Farthest depth', '360');
  await page.getByLabel('The picture is seen from').selectOption({ label: 'View 6 of 12' });
  await expect(page.getByText(/^View 1: \d+(\.\d)? % filled, laid over in magenta/)).toBeVisible();
  await button(page, 'Rightmost').click();
  await expect(page.getByText(/^View 12: \d+(\.\d)? % filled/)).toBeVisible();

  await button(page, 'Make views').click();
  await expect(rows(page)).toHaveCount(12);
  await expect(rows(page).nth(2)).toHaveAttribute('aria-label', /lighthouse_06 made 3 of 12/);
  await expect(rows(page).nth(2)).toContainText(/made 3 of 12, \d+(\.\d)? % filled/);
  await expect(rows(page).nth(5)).toHaveAttribute('aria-label', /lighthouse_06\.png/);
  await expect(
    page.getByRole('heading', { name: '11 of 12 frames shown are made, not rendered' }),
  ).toBeVisible();

  // Where it was filled is kept with the frame: after a reload it lies over the picture, where the
  // scene's own depths say that camera 6 saw nothing.
  await chooseMade(page, 12);
  await expect(made(page).getByText(/^\d+(\.\d)? % filled, laid over in stripes/)).toBeVisible();
  expect(await axeFaults(page)).toEqual([]);
  await made(page).getByRole('button', { name: 'Show filled places' }).press('Space');
  await expect(made(page).locator('canvas')).toHaveCount(0);
  await page.reload();
  await expect(rows(page)).toHaveCount(12);
  await chooseMade(page, 12);
  await expect(made(page).getByText(/^\d+(\.\d)? % filled\. Of what is filled, /)).toBeVisible();
  await expect(made(page).locator('canvas')).toHaveCount(0);
  await made(page)
    .getByRole('button', { name: 'Show filled places', pressed: false })
    .press('Space');
  await expect(made(page).locator('canvas')).toHaveAttribute('width', '512');
  const marks = await marksOver(page);
  expect(marks).toHaveLength(512 * 640);
  const [surely, perhaps] = [hiddenFrom6(1), hiddenFrom6(0)];
  const marked = (x: number, y: number): boolean => {
    const [column, row] = [(x + 0.5) / surely.width, (y + 0.5) / surely.height];
    // More than half of the place was filled.
    return (marks[Math.floor(640 * row) * 512 + Math.floor(512 * column)] ?? 0) > 191;
  };
  // Nine in ten: bars thinner than a pixel of the maps are met by one of them alone.
  const figures = {
    found: metShare(surely, surely.hidden, marked),
    right: metShare(surely, marked, perhaps.hidden),
  };
  console.info('marked against hidden, within two pixels', figures);
  expect(figures.found).toBeGreaterThan(0.9);
  expect(figures.right).toBeGreaterThan(0.9);

  await page.goto('./#/weave');
  await expect(page.getByTestId('tilt-proof').locator('canvas')).toBeVisible();
  const [left, right] = [await shotAt(page, '-0.8'), await shotAt(page, '0.8')];
  // Clouds lie 340 mm behind the print, thrift on the bank 97 mm before it (optics: a thing behind
  // moves with the camera, one in front against it); the tower at 60 mm moves less than the clouds.
  const clouds = movesBy(left, right, [0.3, 0.04, 0.46, 0.13]);
  const tower = movesBy(left, right, [0.55, 0.3, 0.68, 0.62]);
  const thrift = movesBy(left, right, [0.06, 0.79, 0.36, 0.89]);
  expect(clouds).toBeGreaterThan(tower);
  expect(tower).toBeGreaterThan(0);
  expect(thrift).toBeLessThan(-1);

  // One step back is the single render again.
  await page.goto('./#/frames');
  await page.getByRole('button', { name: /^Undo/ }).click();
  await expect(rows(page)).toHaveCount(1);
  await expect(made(page)).toHaveCount(0);
  await page.getByRole('button', { name: /^Redo/ }).click();
  await expect(rows(page)).toHaveCount(12);

  // And in a job file that is opened as another job.
  await page.evaluate(() => Reflect.deleteProperty(globalThis, 'showSaveFilePicker'));
  const saved = page.waitForEvent('download');
  await button(page, 'Save job file').click();
  const file = await (await saved).path();
  await expect(page.getByText(/with 12 pictures\./).first()).toBeVisible();
  const bytes = readFileSync(file);
  const open = (name: string, buffer: Buffer) =>
    page.locator('input[aria-label="Open job file"]').setInputFiles({ name, mimeType: '', buffer });
  // Places of another shape would mark what was never filled.
  await open('odd.tiltloom.zip', await withOddPlaces(bytes));
  await expect(
    page.getByText(/The filled places of .* are 8 × 8; 512 × 640 would lie on that frame/),
  ).toBeVisible();
  await open('fog.tiltloom.zip', bytes);
  await expect(page.getByText(/From fog\.tiltloom\.zip, with 12 pictures/)).toBeVisible();
  await chooseMade(page, 12);
  await expect(made(page).locator('canvas')).toHaveAttribute('width', '512');
  expect((await marksOver(page)).equals(marks)).toBe(true);
});

test('a gap is filled between its neighbours, and stops when asked', async ({ page }) => {
  await page.goto('./#/frames');
  await expect(rows(page)).toHaveCount(12);
  await rows(page).nth(3).click();
  await page.keyboard.press('Delete');
  await expect(page.getByText(/^Frame \d+ is missing between/)).toBeVisible();
  const between = page.getByLabel('Between', { exact: true });
  await expect(between.locator('option:checked')).toHaveText(
    'glasshouse_03.png and glasshouse_05.png',
  );
  const stopped = pressOnSight(page, 'Stop');
  await button(page, 'Fill between frames').click();
  await stopped;
  await expect(page.getByText('Stopped: the sequence is as it was.').first()).toBeVisible();
  await expect(rows(page)).toHaveCount(11);
  await button(page, 'Fill between frames').click();
  await expect(rows(page)).toHaveCount(12);
  await expect(rows(page).nth(3)).toHaveAttribute('aria-label', /glasshouse_03 made 1 of 1/);
  await expect(page.getByText(/^Frame \d+ is missing between/)).toHaveCount(0);
});
