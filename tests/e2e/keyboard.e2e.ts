/** The main job by keys alone: from a fresh page to the link of the woven sheet, no mouse. */
import { readdirSync } from 'node:fs';
import type { Page } from 'playwright/test';
import { expect, test } from './support/kept-demo.ts';

const scene = 'demo-scenes/lighthouse';
const frames = readdirSync(scene)
  .filter((name) => name.endsWith('.png'))
  .map((name) => `${scene}/${name}`);

/** The focus as a person finds it: what has it, and whether they can see that it does. */
const focusNow = (page: Page) =>
  page.evaluate(() => {
    const at = document.activeElement;
    if (!(at instanceof HTMLElement || at instanceof SVGElement) || at === document.body)
      return { name: '', isSeen: true, isUncovered: true, place: 'the page’s end' };
    const labels = at instanceof HTMLInputElement ? [...(at.labels ?? [])] : [];
    const named = at.getAttribute('aria-label') ?? labels.map((one) => one.textContent).join(' ');
    // A radio lies unseen over its segment, a field in a box with its unit: those show the focus for it.
    const shows = [at, at.nextElementSibling, at.parentElement].filter((one) => one !== null);
    const box = at.getBoundingClientRect();
    const [x, y] = [box.left + box.width / 2, box.top + Math.min(box.height, innerHeight) / 2];
    const top = document.elementFromPoint(x, y);
    return {
      name: (named === '' ? at.textContent : named).trim(),
      isSeen: shows.some((one) => {
        const { outlineStyle, outlineWidth } = getComputedStyle(one);
        return outlineStyle !== 'none' && Number.parseFloat(outlineWidth) >= 2;
      }),
      isUncovered: top !== null && (at.contains(top) || top.contains(at)),
      place: `${at.outerHTML.slice(0, 160)} at ${Math.round(x)}, ${Math.round(y)}`,
    };
  });

/**
 * Holds Tab, which then repeats, until what is named has the focus. Every stop on the way must show that
 * it has it, and let it go.
 */
const walkTo = async (page: Page, name: string | RegExp, way: 'on' | 'back' = 'on') => {
  let before = '';
  if (way === 'back') await page.keyboard.down('Shift');
  for (let stops = 0; ; stops += 1) {
    if (stops === 120) throw new Error(`No key leads to ${String(name)}; now at ${before}`);
    await page.keyboard.down('Tab');
    const now = await focusNow(page);
    if (!now.isSeen) throw new Error(`No focus to be seen on ${now.place}`);
    if (!now.isUncovered) throw new Error(`The focus is covered on ${now.place}`);
    if (now.place === before) throw new Error(`The focus is held fast by ${before}`);
    before = now.place;
    if (typeof name === 'string' ? now.name === name : name.test(now.name)) break;
  }
  await page.keyboard.up('Tab');
  if (way === 'back') await page.keyboard.up('Shift');
};

const typeOver = async (page: Page, text: string) => {
  await page.keyboard.press('ControlOrMeta+a');
  await page.keyboard.type(text);
  await page.keyboard.press('Enter');
};

const openBench = async (page: Page, name: string, way: 'on' | 'back') => {
  await walkTo(page, name, way);
  await page.keyboard.press('Enter');
  await expect(page.getByRole('heading', { level: 1, name })).toBeFocused();
  // While the bench is being fetched, the next stop after its name is the foot of the page.
  await expect(page.getByText('Opening the bench …')).toHaveCount(0);
};

test('the main job goes by keys alone, and the focus is always in sight', async ({ page }) => {
  // The system's own dialog is out of reach: it opens at the key, and is answered.
  page.on('filechooser', (dialog) => void dialog.setFiles(frames));
  await page.goto('./');
  await expect(page.getByText('12 for 12 slots')).toBeVisible();

  await openBench(page, 'Frames', 'on');
  await walkTo(page, 'Remove all');
  await page.keyboard.press('Enter');
  await expect(page.getByText('Drop frames here')).toBeVisible();
  await walkTo(page, 'Add frames', 'back');
  await page.keyboard.press('Enter');
  await expect(page.getByText('lighthouse_12.png').first()).toBeVisible();

  await walkTo(page, 'Print height', 'back');
  await typeOver(page, '2 in');
  await walkTo(page, 'Print width', 'back');
  await typeOver(page, '2 in');
  await walkTo(page, 'Lens pitch', 'back');
  await typeOver(page, '75 lpi');
  await expect(page.getByLabel('Lens pitch', { exact: true })).toHaveValue('75');

  await openBench(page, 'Weave', 'back');
  await walkTo(page, /^Tilt proof of/);
  const tilt = page.getByLabel('Tilt', { exact: true });
  await page.keyboard.press('Home');
  await expect(tilt).toHaveValue('-1');
  await walkTo(page, 'Tilt');
  await page.keyboard.press('ArrowRight');
  await expect(tilt).toHaveValue('-0.995');
  await walkTo(page, 'PNG');
  await page.keyboard.press('ArrowRight');
  await expect(page.getByRole('radio', { name: 'TIFF' })).toBeChecked();
  await walkTo(page, 'Weave sheet', 'back');
  await page.keyboard.press('Enter');
  const link = page.getByRole('link', { name: 'Save sheet' });
  await expect(link).toBeVisible();
  // The button was Stop meanwhile: the focus has not gone with it.
  await expect(page.locator('body')).not.toBeFocused();
  await walkTo(page, 'Save sheet');
  const download = page.waitForEvent('download');
  await page.keyboard.press('Enter');
  expect((await download).suggestedFilename()).toMatch(/^The old glasshouse 74\.\d+ lpi.*\.tif$/);
});
