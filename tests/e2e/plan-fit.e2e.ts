/** Lenses and printers on the Plan bench, in a real browser: sort, filter, use a pair, undo. */
import { expect, test } from './support/kept-demo.ts';
import { showPart } from './support/page.ts';

test('finds a printer for the lens, lays the pair into the job and takes it back', async ({
  page,
}) => {
  await page.goto('#/plan');
  await showPart(page, 'Fit');
  const field = (name: string) => page.getByRole('textbox', { name, exact: true });
  const table = page.getByRole('table', { name: 'Lenses and printers' });
  const cells = (place: number) =>
    table
      .locator(`tbody tr > :nth-child(${place + 1})`)
      .evaluateAll((found) => found.map((cell) => parseFloat(cell.textContent)));
  await expect(table.getByRole('row', { name: /your pair/ })).toBeVisible();

  await field('Another printer').fill('1000 dpi');
  await field('Another printer').press('Enter');
  await page.getByRole('radio', { name: 'Printers that suit my lens' }).check();
  // 1000 / 60 = 16⅔: two thirds of a dot in every 16⅔ are 4 %.
  expect(await cells(1)).toContain(1000);
  // Estimates arrive by and by; then their column sorts as well.
  await expect(table.getByText('…')).toHaveCount(0);
  await table.getByRole('button', { name: 'Whole frames' }).click();
  await table.getByRole('button', { name: 'Whole frames' }).click();
  await expect(table.getByRole('columnheader', { name: 'Whole frames' })).toHaveAttribute(
    'aria-sort',
    'descending',
  );
  const whole = await cells(3);
  expect(whole).toEqual([...whole].sort((a, b) => b - a));

  const before = await field('Dots across').inputValue();
  await page.getByRole('button', { name: 'Use this pair, 60 LPI over 1200 dpi' }).click();
  await expect(field('Dots across')).toHaveValue('1200');
  await expect(field('View slots')).toHaveValue('20');
  await expect(page.getByText('60 LPI over 1200 dpi is on the job sheet')).toBeVisible();
  await page.getByRole('button', { name: 'Undo: lens and printer' }).click();
  await expect(field('Dots across')).toHaveValue(before);
  await expect(field('View slots')).toHaveValue('12');

  // What was added is there after a reload.
  await page.reload();
  await expect(page.getByRole('button', { name: 'Take out 1000 dpi' })).toBeVisible();
});
