/** The loupe: dots of the sheet before it is woven, found by key, by number, by map and by hand. */
import type { Page } from 'playwright/test';
import sharp from 'sharp';
import { expect, test } from './support/kept-demo.ts';
import { showPart, type } from './support/page.ts';

const greys = Array.from({ length: 12 }, (_, view) => 10 + view * 20);

/** Twelve flat frames on 2 × 2.5 in at 720 dpi, crisp: each dot tells its view slot. */
const openLoupe = async (page: Page) => {
  await page.goto('./#/frames');
  await expect(page.getByText('12 for 12 slots')).toBeVisible();
  await page.getByRole('button', { name: 'Remove all' }).click();
  const frames = greys.map(async (grey, view) => ({
    name: `step_${view + 1}.png`,
    mimeType: 'image/png',
    buffer: await sharp({
      create: { width: 200, height: 250, channels: 3, background: { r: grey, g: grey, b: 90 } },
    })
      .png()
      .toBuffer(),
  }));
  await page
    .locator('input[type=file]')
    .first()
    .setInputFiles(await Promise.all(frames));
  await expect(page.getByText('12 for 12 slots')).toBeVisible();
  await type(page, 'Print width', '2 in');
  await type(page, 'Print height', '2.5 in');
  await page.goto('./#/weave');
  await page.getByRole('radio', { name: 'Crisp' }).check();
  await showPart(page, 'Loupe');
  await expect(page.getByText(/Preparing frames/)).toBeHidden();
  await expect(page.getByTestId('loupe').locator('canvas')).toBeVisible();
};

/** What the middle of the loupe shows on screen, a little off it: a ring is drawn round the middle. */
const redInMiddle = async (page: Page) => {
  const png = await page.getByTestId('loupe').screenshot();
  const { data, info } = await sharp(png).raw().toBuffer({ resolveWithObject: true });
  const at = Math.floor(info.height / 2 + 30) * info.width + Math.floor(info.width / 2);
  return data[at * info.channels] ?? NaN;
};

const readout = (page: Page) => page.locator('dl', { hasText: 'under the rib' });

test('shows at its middle the dot it speaks of, at the edges of the sheet too', async ({
  page,
}) => {
  await openLoupe(page);
  await page.getByRole('radio', { name: '8:1' }).check();
  await page.getByRole('button', { name: 'Show ribs' }).click();
  await type(page, 'Dot from the top', '900');
  const seen = new Set<number>();
  for (const dot of [1, 2, 5, 700, 725, 1437, 1440]) {
    await type(page, 'Dot from the left', String(dot));
    await expect(readout(page)).toContainText(`${dot} from the left`);
    const words = (await readout(page).textContent()) ?? '';
    const slot = Number(/slot (\d+) \(100 %\)/.exec(words)?.[1]);
    seen.add(slot);
    await expect.poll(() => redInMiddle(page), `dot ${dot}, slot ${slot}`).toBe(greys[slot - 1]);
  }
  expect(seen.size).toBeGreaterThan(3);
});

test('moves by one dot with an arrow, by ten with Shift, and stops at the edge @wider', async ({
  page,
}) => {
  await openLoupe(page);
  await type(page, 'Dot from the left', '15');
  await type(page, 'Dot from the top', '20');
  await page.getByTestId('loupe').focus();
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('Shift+ArrowDown');
  await expect(readout(page)).toContainText('16 from the left, 30 from the top');
  for (let press = 0; press < 3; press += 1) await page.keyboard.press('Shift+ArrowLeft');
  await expect(readout(page)).toContainText('1 from the left, 30 from the top');
});

test('follows a drag dot by dot, at once @wider', async ({ page }) => {
  await openLoupe(page);
  await page.getByRole('radio', { name: '8:1' }).check();
  await type(page, 'Dot from the left', '720');
  const box = (await page.getByTestId('loupe').boundingBox()) ?? {
    x: 0,
    y: 0,
    width: 0,
    height: 0,
  };
  await page.mouse.move(box.x + 200, box.y + 100);
  await page.mouse.down();
  // Eight pixels a dot: the sheet is pulled 20 dots to the right, so the loupe stands 20 further left.
  await page.mouse.move(box.x + 360, box.y + 100, { steps: 7 });
  await page.mouse.up();
  await expect(readout(page)).toContainText('700 from the left');
});

test('takes numbers inside the sheet only, and says which @wider', async ({ page }) => {
  await openLoupe(page);
  await type(page, 'Dot from the left', '1441');
  await expect(page.getByText('Type a whole number from 1 to 1440.')).toBeVisible();
  await expect(readout(page)).not.toContainText('1441 from the left');
});

test('jumps where the map is pressed, and draws ribs a woven pitch apart @wider', async ({
  page,
}) => {
  await openLoupe(page);
  await page.getByRole('radio', { name: '4:1' }).check();
  const map = page.getByTestId('sheet-map');
  const box = (await map.boundingBox()) ?? { x: 0, y: 0, width: 0, height: 0 };
  await map.click({ position: { x: box.width * 0.25, y: box.height * 0.75 } });
  await expect(readout(page)).toContainText(/3[5-7]\d from the left, 13[3-6]\d from the top/);
  const places = await page
    .getByTestId('ribs')
    .locator('line')
    .evaluateAll((lines) => lines.map((line) => line.getBoundingClientRect().x));
  expect(places.length).toBeGreaterThan(5);
  // Relation 2: 25.4/60 (1 + g/D), g 0.84/1.5685 mm, D 400 mm; at 720 dpi, four pixels a dot.
  const apart = (720 / 60) * (1 + 0.84 / 1.5685 / 400) * 4;
  const [first = NaN, last = NaN] = [places[0], places.at(-1)];
  expect((last - first) / (places.length - 1)).toBeCloseTo(apart, 2);
  await page.getByRole('button', { name: 'Show ribs' }).click();
  await expect(page.getByTestId('ribs')).toBeHidden();
});
