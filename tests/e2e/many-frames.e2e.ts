/** Hundreds of frames at once: the list draws those in view alone, and all else holds for every one. */
import type { Page } from 'playwright/test';
import { nameOf, numberedFrame } from '../bench/shared/numbered-frames.mjs';
import { addButton } from './support/jobs.ts';
import { expect, test } from './support/kept-demo.ts';

const COUNT = 400;
const SLOTS = 12;

const list = (page: Page) => page.getByRole('grid', { name: 'Frames in order' });

/** The frames that twelve slots show of so many, spread evenly from the first to the last. */
const shown = Array.from({ length: SLOTS }, (_, slot) =>
  nameOf(1 + Math.round((slot * (COUNT - 1)) / (SLOTS - 1))),
);

const expectSlots = async (page: Page, names: readonly string[]) => {
  for (const [slot, name] of names.entries())
    await expect(
      page.getByRole('radio', { name: new RegExp(`^Slot ${slot + 1}: .*${name}`) }),
    ).toBeAttached();
};

/** Every row that is drawn says its own place, and few are drawn. */
const expectFewRows = async (page: Page) => {
  await expect(list(page)).toHaveAttribute('aria-rowcount', String(COUNT));
  const rows = await list(page)
    .getByRole('row')
    .evaluateAll((all) =>
      all.map((row) => ({
        place: Number(row.getAttribute('aria-rowindex')),
        label: row.getAttribute('aria-label') ?? '',
      })),
    );
  expect(rows.length).toBeGreaterThan(0);
  expect(rows.length).toBeLessThan(COUNT / 4);
  for (const { place, label } of rows) expect(label.startsWith(`${place}, `)).toBe(true);
};

test('400 frames: few rows drawn, all slots right, and order, keys and undo as ever', async ({
  page,
}) => {
  await page.goto('#/frames');
  await page.getByRole('button', { name: 'Remove all' }).click();
  const files = await Promise.all(
    Array.from({ length: COUNT }, async (_, at) => ({
      name: nameOf(at + 1),
      mimeType: 'image/png',
      buffer: await numberedFrame(at + 1),
    })),
  );
  await addButton(page).setInputFiles(files);
  const row = (place: number) => list(page).locator(`[role=row][aria-rowindex="${place}"]`);
  await expect(page.getByRole('heading', { name: `Sequence: ${COUNT} frames` })).toBeVisible();
  await expect(row(1)).toHaveAccessibleName(new RegExp(`^1, ${nameOf(1)}`));
  await expect(row(1).locator('img')).toBeVisible();
  await expectFewRows(page);
  await expectSlots(page, shown);

  await page.getByRole('button', { name: 'Reverse order' }).click();
  await expect(row(1)).toHaveAccessibleName(new RegExp(`^1, ${nameOf(COUNT)}`));
  await expectFewRows(page);
  await expectSlots(page, [...shown].reverse());
  await page.getByRole('button', { name: 'Undo: reversed order' }).click();
  await expect(row(1)).toHaveAccessibleName(new RegExp(`^1, ${nameOf(1)}`));
  await expectSlots(page, shown);

  // The last is not drawn until the keys go there.
  await expect(row(COUNT)).toHaveCount(0);
  await row(1).click();
  await page.keyboard.press('End');
  await expect(row(COUNT)).toBeFocused();
  await expect(row(COUNT)).toBeInViewport();
  await expect(row(COUNT).locator('img')).toBeVisible();
  await expectFewRows(page);
  await page.keyboard.press('Alt+ArrowLeft');
  await expect(row(COUNT - 1)).toBeFocused();
  await expect(row(COUNT - 1)).toHaveAccessibleName(new RegExp(nameOf(COUNT)));
  await page.getByRole('button', { name: `Undo: moving ${nameOf(COUNT)}` }).click();
  await expect(row(COUNT)).toHaveAccessibleName(new RegExp(nameOf(COUNT)));

  await page.getByRole('button', { name: `Undo: adding ${COUNT} frames` }).click();
  await expect(page.getByText('Drop frames here')).toBeVisible();
  await page.getByRole('button', { name: `Redo: adding ${COUNT} frames` }).click();
  await expect(row(1)).toHaveAccessibleName(new RegExp(`^1, ${nameOf(1)}`));
  await expectSlots(page, shown);
  await page.reload();
  await expect(row(1).locator('img')).toBeVisible();
  await expectFewRows(page);
  await expectSlots(page, shown);
});
