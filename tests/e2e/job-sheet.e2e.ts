/** The job sheet in a real browser: typed units, errors, undo, and what a reload keeps. */
import type { Page } from 'playwright/test';
import { expect, test } from './support/kept-demo.ts';
import { field, keptAs, type } from './support/page.ts';

const opened = async (page: Page, address = '#/plan') => {
  await page.goto(address);
  await expect(field(page, 'Lens pitch')).toBeVisible();
};

test('takes measures in any unit and shows them in the chosen one', async ({ page }) => {
  await opened(page);
  await type(page, 'Print width', '8"');
  await expect(field(page, 'Print width')).toHaveValue('203.2');
  await type(page, 'Viewing distance', '45 cm');
  await expect(field(page, 'Viewing distance')).toHaveValue('450');
  await type(page, 'Lens pitch', '0,5 mm');
  await expect(field(page, 'Lens pitch')).toHaveValue('0.5');
  await page.getByRole('radio', { name: 'in', exact: true }).check();
  await expect(field(page, 'Print width')).toHaveValue('8');
  await page.getByRole('radio', { name: 'Lying' }).check();
  await expect(page.getByRole('radio', { name: 'Lying' })).toBeChecked();
});

test('says what is wrong next to the field and keeps the last good value', async ({ page }) => {
  await opened(page);
  await type(page, 'Print height', '10 furlongs');
  await expect(field(page, 'Print height')).toHaveAttribute('aria-invalid', 'true');
  await expect(field(page, 'Print height')).toHaveAccessibleDescription(/furlongs.*use mm, cm/);
  await expect(field(page, 'Print height')).toHaveValue('10 furlongs');
  await field(page, 'Print height').press('Escape');
  await expect(field(page, 'Print height')).toHaveValue('254');
  await expect(field(page, 'Print height')).not.toHaveAttribute('aria-invalid');
});

test('undoes and redoes by button and by key, and leaves editing to the field', async ({
  page,
}) => {
  await opened(page);
  await type(page, 'Lens pitch', '50 lpi');
  await page.getByRole('button', { name: 'Undo: lens pitch' }).click();
  await expect(field(page, 'Lens pitch')).toHaveValue('60');
  await page.keyboard.press('Control+Shift+Z');
  await expect(field(page, 'Lens pitch')).toHaveValue('50');
  await field(page, 'Lens pitch').click();
  await page.keyboard.press('End');
  await page.keyboard.type('7');
  await page.keyboard.press('Control+Z');
  await expect(page.getByRole('button', { name: 'Undo: lens pitch' })).toBeVisible();
});

test('keeps the job and the bench over a reload', async ({ page }) => {
  await opened(page, '#/mount');
  await type(page, 'Print width', '152 mm');
  await field(page, 'Job name').fill('Kingfisher');
  await field(page, 'Job name').press('Enter');
  await keptAs(page, ({ name }) => name === 'Kingfisher');
  await page.goto('about:blank');
  await page.goto('');
  await expect(field(page, 'Print width')).toHaveValue('152');
  await expect(field(page, 'Job name')).toHaveValue('Kingfisher');
  await expect(page.getByRole('heading', { level: 1, name: 'Mount' })).toBeVisible();
  await expect(page).toHaveURL(/#\/mount$/);
});

test('writes the last change even when the page goes at once', async ({ page }) => {
  await opened(page);
  await type(page, 'View slots', '7');
  await page.reload();
  await expect(field(page, 'View slots')).toHaveValue('7');
});

/** What the database of kept jobs holds: states by number, and names of what was set aside. */
const spoilStates = (page: Page, spoilFrom: number) =>
  page.evaluate(
    (from) =>
      new Promise<{ states: number[]; aside: string[] }>((resolve, reject) => {
        const asked = indexedDB.open('tiltloom-job');
        asked.onerror = () => reject(new Error(asked.error?.message));
        asked.onsuccess = () => {
          const stores = asked.result.transaction(['entries', 'aside'], 'readwrite');
          const entries = stores.objectStore('entries');
          const all = entries.getAll() as IDBRequest<{ seq: number; job: unknown }[]>;
          all.onsuccess = () => {
            for (const one of all.result)
              if (one.seq >= from) entries.put({ ...one, job: { version: 1, lens: 'spoiled' } });
          };
          const aside = stores.objectStore('aside').getAllKeys();
          stores.oncomplete = () => {
            asked.result.close();
            resolve({ states: all.result.map(({ seq }) => seq), aside: aside.result.map(String) });
          };
        };
      }),
    spoilFrom,
  );

test('sets a damaged state aside for the one before, and a job that is damaged all through', async ({
  page,
}) => {
  await opened(page);
  await type(page, 'View slots', '7');
  await keptAs(page, ({ viewSlots }) => viewSlots === 7);
  const told = page.getByRole('status').filter({ hasText: 'could not be read' });
  expect((await spoilStates(page, 2)).states).toEqual([1, 2]);
  await page.reload();
  await expect(told).toContainText('the one before it is open');
  await expect(field(page, 'View slots')).toHaveValue('12');
  expect((await spoilStates(page, 1)).aside).toHaveLength(1);
  await page.reload();
  await expect(told).toContainText('Nothing was deleted');
  await expect(field(page, 'Job name')).toHaveValue('Untitled print');
  expect((await spoilStates(page, Infinity)).aside).toHaveLength(2);
  await page.getByRole('button', { name: 'Dismiss' }).click();
  await expect(told).toHaveCount(0);
});

test('can be worked from the keyboard alone', async ({ page }) => {
  await opened(page);
  await page.keyboard.press('Tab');
  await expect(page.getByRole('button', { name: 'Skip to the bench' })).toBeFocused();
  await page.keyboard.press('Enter');
  await expect(page.getByRole('heading', { level: 1 })).toBeFocused();
  await page.getByRole('link', { name: 'Mend' }).focus();
  await page.keyboard.press('Enter');
  await expect(page.getByRole('heading', { level: 1, name: 'Mend' })).toBeFocused();
  await page.getByRole('radio', { name: 'Upright' }).focus();
  await page.keyboard.press('ArrowRight');
  await expect(page.getByRole('radio', { name: 'Lying' })).toBeChecked();

  // What a label means, asked from within its field.
  const answer = page.locator('[popover]').filter({ hasText: 'Distance from rib to rib' });
  await expect(answer).toBeHidden();
  await field(page, 'Lens pitch').focus();
  await page.keyboard.press('F1');
  await expect(answer).toBeInViewport({ ratio: 1 });
  await page.keyboard.press('Escape');
  await expect(answer).toBeHidden();
  await expect(field(page, 'Lens pitch')).toBeFocused();
});
