/** The tilt proof in the studio: what turns it, what stops it, and that it rests when nothing does. */
import type { Page } from 'playwright/test';
import sharp from 'sharp';
import { expect, test } from './support/kept-demo.ts';
import { atRest } from './support/page.ts';

/** A worker draws it: until its first picture the box is of one colour. */
const isDrawn = async (page: Page) => {
  const { channels } = await sharp(await page.getByTestId('tilt-proof').screenshot())
    .removeAlpha()
    .stats();
  return channels.some(({ min, max }) => max - min > 3);
};

const openProof = async (page: Page, address = './#/weave') => {
  await page.goto(address);
  await expect(page.getByText('12 for 12 slots')).toBeVisible();
  await expect(page.getByText(/Preparing frames/)).toBeHidden();
  await expect.poll(() => isDrawn(page)).toBe(true);
};

const slider = (page: Page) => page.getByLabel('Tilt', { exact: true });
const tilt = async (page: Page) => Number(await slider(page).inputValue());

const shot = async (page: Page) => {
  const png = await page.getByTestId('tilt-proof').screenshot();
  return sharp(png).removeAlpha().raw().toBuffer({ resolveWithObject: true });
};

/** Mean of one channel over the middle third of the proof. */
const meanOf = async (page: Page, channel: 0 | 1 | 2) => {
  const { data, info } = await shot(page);
  let sum = 0;
  let count = 0;
  for (let y = Math.floor(info.height / 3); y < (2 * info.height) / 3; y += 1)
    for (let x = Math.floor(info.width * 0.45); x < info.width * 0.55; x += 1) {
      sum += data[(y * info.width + x) * 3 + channel] ?? NaN;
      count += 1;
    }
  return sum / count;
};

/** Twelve flat frames: red rises from left camera to right, green falls. */
const addFlatFrames = async (page: Page) => {
  await page.goto('./#/frames');
  await expect(page.getByText('12 for 12 slots')).toBeVisible();
  await page.getByRole('button', { name: 'Remove all' }).click();
  const frames = Array.from({ length: 12 }, async (_, view) => ({
    name: `step_${view + 1}.png`,
    mimeType: 'image/png',
    buffer: await sharp({
      create: {
        width: 200,
        height: 250,
        channels: 3,
        background: { r: 10 + 20 * view, g: 245 - 20 * view, b: 128 },
      },
    })
      .png()
      .toBuffer(),
  }));
  await page
    .locator('input[type=file]')
    .first()
    .setInputFiles(await Promise.all(frames));
  await expect(page.getByText('12 for 12 slots')).toBeVisible();
  await openProof(page);
};

const settledShot = (page: Page): Promise<Buffer> =>
  atRest(
    page,
    async () => (await shot(page)).data,
    (a, b) => a.equals(b),
  );

test('without WebGL2 the proof looks the same @wider', async ({ page }) => {
  const pictures: Buffer[] = [];
  for (const address of ['./?proof=3d#/weave', './?proof=2d#/weave']) {
    await openProof(page, address);
    await slider(page).fill('0.3');
    pictures.push(await settledShot(page));
  }
  const [webgl = Buffer.of(), canvas = Buffer.of()] = pictures;
  expect(webgl.length).toBe(canvas.length);
  let sum = 0;
  for (let at = 0; at < webgl.length; at += 1)
    sum += Math.abs((webgl[at] ?? NaN) - (canvas[at] ?? NaN));
  // Drawn smaller and stretched, it is a little softer.
  expect(sum / webgl.length).toBeLessThan(3);
  const levels = new Set(webgl);
  expect(levels.size, 'a picture, not an even ground').toBeGreaterThan(50);
});

test('the sway turns the proof until it is stopped, or a hand takes over @wider', async ({
  page,
}) => {
  await openProof(page);
  expect(await tilt(page)).toBe(0);
  await page.getByRole('button', { name: 'Sway', exact: true }).click();
  await expect.poll(() => tilt(page)).not.toBe(0);
  await page.getByRole('button', { name: 'Stop swaying' }).click();
  const rest = await tilt(page);
  await page.waitForTimeout(300);
  expect(await tilt(page)).toBe(rest);
  await page.getByRole('button', { name: 'Sway', exact: true }).click();
  await page.getByTestId('tilt-proof').focus();
  await page.keyboard.press('End');
  await expect(page.getByRole('button', { name: 'Sway', exact: true })).toBeVisible();
  expect(await tilt(page)).toBe(1);
});

test('where less motion is asked for there is no sway', async ({ page }) => {
  await page.emulateMedia({ reducedMotion: 'reduce' });
  await openProof(page);
  await expect(page.getByText('asks for less motion')).toBeVisible();
  const button = page.getByRole('button', { name: 'Sway', exact: true });
  await button.click({ force: true }).catch(() => undefined);
  await page.waitForTimeout(400);
  expect(await tilt(page)).toBe(0);
});

test('nothing is drawn while nothing changes', async ({ page }) => {
  await page.addInitScript(() => {
    const ask = window.requestAnimationFrame.bind(window);
    Object.assign(window, { framesAsked: 0 });
    window.requestAnimationFrame = (callback) => {
      (window as unknown as { framesAsked: number }).framesAsked += 1;
      return ask(callback);
    };
  });
  await openProof(page);
  const asked = () =>
    page.evaluate(() => (window as unknown as { framesAsked: number }).framesAsked);
  // The loupe's dots and the last frames may still be on their way: then a second and a half of rest.
  const askedMeanwhile = async () => {
    const before = await asked();
    await page.waitForTimeout(1500);
    return (await asked()) - before;
  };
  await expect.poll(askedMeanwhile).toBe(0);
  const before = await asked();
  expect(before).toBeGreaterThan(0);
  await slider(page).fill('0.5');
  await expect.poll(asked).toBeGreaterThan(before);
});

test('both eyes: red is the left one’s view, green the right one’s @wider', async ({ page }) => {
  await addFlatFrames(page);
  const alone = { red: await meanOf(page, 0), green: await meanOf(page, 1) };
  await page.getByRole('button', { name: /Both eyes/ }).click();
  // The right eye stands 31.5 mm (Dodgson 2004: 63 apart) of a 340 mm zone further to the right:
  // 1.1 views of 12 on, 20 codes of green each.
  await expect.poll(async () => alone.green - (await meanOf(page, 1))).toBeGreaterThan(15);
  expect(alone.green - (await meanOf(page, 1))).toBeLessThan(35);
  // Red carries the luminance of the left view, mostly its green: 1.1 views back, brighter than red alone.
  expect(await meanOf(page, 0)).toBeGreaterThan(alone.red);
});

test('lying ribs turn up and down, by pointer and by key @wider', async ({ page }) => {
  await addFlatFrames(page);
  await page.getByRole('radio', { name: 'Lying' }).check();
  await expect(page.getByText(/Preparing frames/)).toBeHidden();
  const proof = page.getByTestId('tilt-proof');
  const box = (await proof.boundingBox()) ?? { x: 0, y: 0, width: 0, height: 0 };
  await page.mouse.move(box.x + box.width / 2, box.y + box.height * 0.4);
  await page.mouse.down();
  await page.mouse.move(box.x + box.width * 0.9, box.y + box.height * 0.6, { steps: 4 });
  await page.mouse.up();
  // A fifth of the height is a fifth of the zone; sideways counts for nothing.
  expect(await tilt(page)).toBeCloseTo(0.4, 1);
  await expect(slider(page)).toHaveAttribute('aria-valuetext', /mm low, view 9 of 12/);
  await proof.focus();
  await page.keyboard.press('Home');
  await page.keyboard.press('ArrowRight');
  expect(await tilt(page)).toBe(-1);
  await page.keyboard.press('ArrowDown');
  expect(await tilt(page)).toBeGreaterThan(-1);
});
