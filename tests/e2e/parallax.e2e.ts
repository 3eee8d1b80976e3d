/** Measured parallax in a real browser, on the demo's frames at half their size: a quarter of the work. */
import type { Page } from 'playwright/test';
import { expect, test } from './support/any-visit.ts';
import sharp from 'sharp';
import { axeFaults } from './support/axe.ts';
import { atRest, keptAs, showPart } from './support/page.ts';
import { shrinkDemo } from './support/shrunk-demo.ts';

test.beforeEach(({ page }) => shrinkDemo(page, 300));

const rows = (page: Page) => page.getByRole('grid', { name: 'Frames in order' }).getByRole('row');
const heatMap = (page: Page) => page.getByRole('img', { name: /^Heat map of/ });
const button = (page: Page, name: string) => page.getByRole('button', { name, exact: true });

const measured = async (page: Page) => {
  await page.goto('#/frames');
  await expect(rows(page)).toHaveCount(12);
  await showPart(page, 'Everything');
  await button(page, 'Measure parallax').click();
  await expect(page.getByText(/^The order is right|^The frames run/)).toBeVisible();
};

/** The heat map's own pixels. */
const colours = (page: Page) =>
  heatMap(page).evaluate((canvas) => (canvas as HTMLCanvasElement).toDataURL());

/** The tilt proof as it looks. */
const proofLook = (page: Page) =>
  page
    .locator('canvas')
    .first()
    .screenshot()
    .then((picture) => picture.toString('base64'));

test('the demo is measured, its order told both ways round and mended in one click @wider', async ({
  page,
}) => {
  await measured(page);
  await expect(heatMap(page)).toBeVisible();
  await expect(page.getByText(/^The order is right: \d+ % of \d+ edges/)).toBeVisible();
  await expect(page.getByRole('img', { name: /^Histogram of motion/ })).toBeVisible();
  // The scene's cameras stood at even steps: each within a tenth of the ordinary one.
  const range =
    (await page.getByRole('img', { name: /^Steps between/ }).getAttribute('aria-label')) ?? '';
  const [low = 0, high = 9] = [...range.matchAll(/\d\.?\d*/g)].map(([figure]) => Number(figure));
  expect(low).toBeGreaterThan(0.9);
  expect(high).toBeLessThan(1.1);

  expect(await axeFaults(page)).toEqual([]);

  await button(page, 'Reverse order').click();
  const finding = page.getByRole('heading', { name: 'The frames run from the wrong side' });
  await expect(finding).toBeVisible();
  const first = rows(page).first();
  await expect(first).toHaveAttribute('aria-label', /glasshouse_12/);
  await page
    .getByRole('complementary')
    .filter({ has: finding })
    .getByRole('button', { name: 'Mend: reverse the order' })
    .click();
  await expect(first).toHaveAttribute('aria-label', /glasshouse_01/);
  await expect(page.getByText(/^The order is right/)).toBeVisible();
  await expect(finding).toHaveCount(0);
});

test('the key plane follows a place in the picture, into the tilt proof, and back by undo @wider', async ({
  page,
}) => {
  await page.goto('#/weave');
  const tilt = page.getByRole('slider', { name: 'Tilt' });
  await tilt.fill('0.8');
  await page.goto('#/frames');
  await expect(rows(page)).toHaveCount(12);
  await showPart(page, 'Everything');
  await button(page, 'Measure parallax').click();
  // The first look is enough to move the key plane by; the rest is stopped.
  await expect(heatMap(page)).toBeVisible();
  await button(page, 'Stop').click();
  await expect(button(page, 'Measure again')).toBeVisible();
  const before = await colours(page);
  const slider = page.getByRole('slider', { name: 'Key plane' });
  await expect(slider).toHaveAttribute('aria-valuetext', 'as rendered');
  await slider.focus();
  for (let i = 0; i < 30; i += 1) await page.keyboard.press('ArrowRight');
  await expect(slider).toHaveAttribute('aria-valuetext', /^0\.3 ribs per view back/);
  expect(await colours(page)).not.toBe(before);
  // What is chosen in the picture stands still from then on.
  await heatMap(page).click({ position: { x: 150, y: 300 } });
  await button(page, 'Key plane as rendered').click();
  await expect(slider).toHaveAttribute('aria-valuetext', 'as rendered');
  expect(await colours(page)).toBe(before);

  await page.goto('#/weave');
  await expect(tilt).toBeVisible();
  const rendered = await atRest(page, () => proofLook(page));
  await page.goto('#/frames');
  await button(page, 'Middle of the depth').click();
  await page.goto('#/weave');
  await expect.poll(() => proofLook(page)).not.toBe(rendered);
  // It happened on Frames, and opens it.
  await page.getByRole('button', { name: /^Undo/ }).click();
  await page.goto('#/weave');
  await expect.poll(() => proofLook(page)).toBe(rendered);
});

test('what lies beyond the sharp range is softened, seen in the tilt proof, through undo and reload @wider', async ({
  page,
}) => {
  await measured(page);
  const slider = page.getByRole('slider', { name: 'Soften' });
  await expect(slider).toHaveAttribute('aria-valuetext', 'off');
  // The key plane far back: two fifths of the places then move more than a lenticule.
  await page.getByRole('slider', { name: 'Key plane' }).focus();
  await page.keyboard.press('End');
  await expect(page.getByText(/^\d+ % of the measured places lie beyond/)).toBeVisible();

  await page.goto('#/weave');
  await expect(page.getByRole('slider', { name: 'Tilt' })).toBeVisible();
  // What it shows while frames are prepared is not what it comes to.
  await expect(page.getByText(/^Preparing frames/)).toHaveCount(0);
  const hard = await atRest(page, () => proofLook(page));
  const findings = page.getByRole('complementary', { name: 'Findings' });
  await findings.getByRole('button', { name: 'Soften what lies beyond' }).click();
  await expect(findings.getByText('What lies beyond the sharp range is softened')).toBeVisible();
  await expect.poll(() => proofLook(page)).not.toBe(hard);
  await page.getByRole('button', { name: /^Undo: softening/ }).click();
  await expect.poll(() => proofLook(page)).toBe(hard);

  await page.goto('#/frames');
  await slider.focus();
  await page.keyboard.press('End');
  await expect(slider).toHaveAttribute('aria-valuetext', '100 %');
  await expect(page.getByText(/^\d+ % of the measured places are softened/)).toBeVisible();
  await keptAs(page, (job) => job['soften'] === 1);
  // Kept with what was measured: nothing need be measured again for it.
  await page.goto('#/weave');
  await expect.poll(() => proofLook(page)).not.toBe(hard);
  const soft = await atRest(page, () => proofLook(page));
  await page.reload();
  await expect.poll(() => proofLook(page)).toBe(soft);
  await expect(findings.getByText('Nothing is softened yet')).toHaveCount(0);
});

test('the list of expected frames names what is missing, copied and dark, and mends copies', async ({
  page,
}) => {
  await page.goto('#/frames');
  await expect(rows(page)).toHaveCount(12);
  await button(page, 'Remove all').click();
  const pose = async (number: number, level: number) => ({
    name: `pose_${String(number).padStart(2, '0')}.png`,
    mimeType: 'image/png',
    buffer: await sharp({
      create: { width: 60, height: 75, channels: 3, background: { r: level, g: level, b: level } },
    })
      .png()
      .toBuffer(),
  });
  const levels = [150, 151, 152, 153, 90, 154, 155, 156, 157, 150];
  const numbers = [1, 2, 3, 5, 6, 7, 8, 9, 10, 11];
  await page
    .locator('input[aria-label="Add frames"]')
    .setInputFiles(await Promise.all(numbers.map((n, i) => pose(n, levels[i] as number))));
  await expect(rows(page)).toHaveCount(10);
  await expect(page.getByText('10 here for 12 view slots, 2 missing, 2 to look at.')).toBeVisible();
  await page.getByText('Expected frames, one by one').first().click();
  const row = (name: string) => page.getByRole('row', { name: new RegExp(`^${name}`) });
  await expect(row('pose_04.png')).toContainText('missing');
  await expect(row('pose_12.png')).toContainText('missing');
  await expect(row('pose_06.png')).toContainText('stops darker');
  await expect(row('pose_11.png')).toContainText('same pixels as pose_01.png');
  await button(page, 'Take the copy out').click();
  await expect(rows(page)).toHaveCount(9);
  await expect(row('pose_11.png')).toContainText('missing');
});
