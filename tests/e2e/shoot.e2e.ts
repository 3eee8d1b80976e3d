/** The Shoot bench in a real browser: numbers typed, the key plane dragged, files taken along. */
import { readFile } from 'node:fs/promises';
import type { Page } from 'playwright/test';
import { expect, test } from './support/kept-demo.ts';
import { field, showPart, type, unfold } from './support/page.ts';

const opened = async (page: Page) => {
  await page.goto('#/shoot');
  await expect(field(page, 'Width at the key plane')).toBeVisible();
  await showPart(page, 'Gain and cameras');
  await expect(field(page, 'Depth gain')).toHaveValue('0.0316');
  await showPart(page, 'The rig');
};

const saved = async (page: Page, name: RegExp) => {
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name }).click(),
  ]);
  return {
    text: await readFile(await download.path(), 'utf8'),
    fileName: download.suggestedFilename(),
  };
};

test('types a scene, drags its key plane in one step, and takes the rig along', async ({
  page,
}) => {
  await opened(page);
  await page.getByRole('combobox', { name: 'Scene units' }).selectOption('m');
  await type(page, 'Width at the key plane', '2.032');
  await type(page, 'Nearest thing', '0.5');
  await type(page, 'Farthest thing', '2');
  await type(page, 'View slots', '10');

  const plane = page.getByRole('slider', { name: 'Key plane' });
  await expect(plane).toHaveAttribute('aria-valuetext', /^Key plane 4 m from the cameras/);
  await plane.scrollIntoViewIfNeeded();
  const grip = await plane.locator('rect').boundingBox();
  if (grip === null) throw new Error('The key plane’s grip is not on the page.');
  const [x, y] = [grip.x + grip.width / 2, grip.y + grip.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x, y - 15);
  // Longer than quick changes fold: a drag is one step all the same.
  await page.waitForTimeout(1200);
  await page.mouse.move(x, y - 30, { steps: 4 });
  await expect(plane).not.toHaveAttribute('aria-valuetext', /^Key plane 4 m from the cameras/);
  await page.mouse.up();
  await expect(field(page, 'Width at the key plane')).not.toHaveValue('2.032');
  await page.getByRole('button', { name: /^Undo/ }).click();
  await expect(field(page, 'Width at the key plane')).toHaveValue('2.032');
  await expect(plane).toHaveAttribute('aria-valuetext', /^Key plane 4 m from the cameras/);

  // Δ by optics relation 5 in metres: γ D p / (N g′) · 10. The demo's cameras stand where γ 0.034 puts them by
  // the paraxial g = t / n; its gain of 0.0316 is the same by the traced g′, to six figures.
  const step = (0.034 * 0.4 * (0.0254 / 60) * 10) / (10 * (0.00084 / 1.5685));
  const moving = await saved(page, /^One moving camera/);
  expect(moving.fileName).toMatch(/moving camera\.usda$/);
  expect(moving.text).toMatch(/^#usda 1\.0\n/);
  expect(moving.text).toContain('metersPerUnit = 1\n');
  const places = [...moving.text.matchAll(/^\s+\d+: \(([-\d.e]+), 0, 4\),$/gm)].map(([, at]) =>
    Number(at),
  );
  expect(places).toHaveLength(10);
  expect((places[1] ?? NaN) - (places[0] ?? NaN)).toBeCloseTo(step, 7);
  await unfold(page, 'Other ways to take it along');
  const row = await saved(page, /^10 cameras/);
  expect(row.text.match(/def Camera "View_\d\d"/g)).toHaveLength(10);
  const table = await saved(page, /^Table/);
  expect(table.fileName).toMatch(/\.csv$/);
  const lines = table.text.split('\r\n').filter((line) => line !== '' && !line.startsWith('#'));
  expect(lines[0]).toMatch(/^view,camera_x_m,/);
  expect(lines).toHaveLength(11);
  expect(Number(lines[1]?.split(',')[1])).toBeCloseTo(places[0] ?? NaN, 8);
});
