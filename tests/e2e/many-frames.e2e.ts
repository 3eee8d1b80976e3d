/** Hundreds of frames at once: the list draws those in view alone, and all else holds for every one. */
import type { Page } from 'playwright/test';
import { nameOf, numberedFrame } from '../bench/shared/numbered-frames.mjs';
import { addButton } from './support/jobs.ts';
import { expect, test } from './support/kept-demo.ts';

const SLOTS = 12;

const list = (page: Page) => page.getByRole('grid', { name: 'Frames in order' });

/** The frames that twelve slots show of so many, spread evenly from the first to the last. */
const shownOf = (count: number) =>
  Array.from({ length: SLOTS }, (_, slot) =>
    nameOf(1 + Math.round((slot * (count - 1)) / (SLOTS - 1))),
  );

const expectSlots = async (page: Page, names: readonly string[]) => {
  for (const [slot, name] of names.entries())
    await expect(
      page.getByRole('radio', { name: new RegExp(`^Slot ${slot + 1}: .*${name}`) }),
    ).toBeAttached();
};

/** Every row that is drawn says its own place, and few are drawn. */
const expectFewRows = async (page: Page, count: number) => {
  await expect(list(page)).toHaveAttribute('aria-rowcount', String(count));
  const rows = await list(page)
    .getByRole('row')
    .evaluateAll((all) =>
      all.map((row) => ({
        place: Number(row.getAttribute('aria-rowindex')),
        label: row.getAttribute('aria-label') ?? '',
      })),
    );
  expect(rows.length).toBeGreaterThan(0);
  expect(rows.length).toBeLessThan(count / 4);
  for (const { place, label } of rows) expect(label.startsWith(`${place}, `)).toBe(true);
};

for (const count of [100, 400])
  test(`${count} frames: few rows drawn, all slots right, and order, keys and undo as ever${count > 100 ? ' @wider' : ''}`, async ({
    page,
  }) => {
    const shown = shownOf(count);
    await page.goto('#/frames');
    await page.getByRole('button', { name: 'Remove all' }).click();
    const files = await Promise.all(
      Array.from({ length: count }, async (_, at) => ({
        name: nameOf(at + 1),
        mimeType: 'image/png',
        buffer: await numberedFrame(at + 1),
      })),
    );
    await addButton(page).setInputFiles(files);
    const row = (place: number) => list(page).locator(`[role=row][aria-rowindex="${place}"]`);
    await expect(page.getByRole('heading', { name: `Sequence: ${count} frames` })).toBeVisible();
    await expect(row(1)).toHaveAccessibleName(new RegExp(`^1, ${nameOf(1)}`));
    await expect(row(1).locator('img')).toBeVisible();
    await expectFewRows(page, count);
    await expectSlots(page, shown);

    await page.getByRole('button', { name: 'Reverse order' }).click();
    await expect(row(1)).toHaveAccessibleName(new RegExp(`^1, ${nameOf(count)}`));
    await expectFewRows(page, count);
    await expectSlots(page, [...shown].reverse());
    await page.getByRole('button', { name: 'Undo: reversed order' }).click();
    await expect(row(1)).toHaveAccessibleName(new RegExp(`^1, ${nameOf(1)}`));
    await expectSlots(page, shown);

    // The last is not drawn until the keys go there.
    await expect(row(count)).toHaveCount(0);
    await row(1).click();
    await page.keyboard.press('End');
    await expect(row(count)).toBeFocused();
    await expect(row(count)).toBeInViewport();
    await expect(row(count).locator('img')).toBeVisible();
    await expectFewRows(page, count);
    await page.keyboard.press('Alt+ArrowLeft');
    await expect(row(count - 1)).toBeFocused();
    await expect(row(count - 1)).toHaveAccessibleName(new RegExp(nameOf(count)));
    await page.getByRole('button', { name: `Undo: moving ${nameOf(count)}` }).click();
    await expect(row(count)).toHaveAccessibleName(new RegExp(nameOf(count)));

    await page.getByRole('button', { name: `Undo: adding ${count} frames` }).click();
    await expect(page.getByText('Drop frames here')).toBeVisible();
    await page.getByRole('button', { name: `Redo: adding ${count} frames` }).click();
    await expect(row(1)).toHaveAccessibleName(new RegExp(`^1, ${nameOf(1)}`));
    await expectSlots(page, shown);
    await page.reload();
    await expect(row(1).locator('img')).toBeVisible();
    await expectFewRows(page, count);
    await expectSlots(page, shown);
  });
