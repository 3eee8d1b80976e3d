/** The lens finder in the built studio: asked for a wall print, answered, and the first answer taken. */
import { expect, test } from './support/kept-demo.ts';
import { field, type } from './support/page.ts';

test('finds a lens for a wish, and puts it into the job', async ({ page }) => {
  await page.goto('#/plan');
  const cards = page.getByRole('list', { name: 'Lenses that suit' }).getByRole('listitem');
  await expect(cards.first()).toBeVisible();
  await type(page, 'From nearest', '1 m');
  await type(page, 'To farthest', '2 m');
  await type(page, 'Depth in front', '60 mm');
  await type(page, 'Depth behind', '80 mm');
  await expect(page.getByText(/do(es)? all of it\. The first is the best/)).toBeVisible();
  const lpi = /([\d.]+) LPI,/.exec((await cards.first().textContent()) ?? '')?.[1] ?? '';
  const sharp = /Sharp from ([\d.]+) mm in front to ([\d.]+) mm behind/.exec(
    (await cards.first().textContent()) ?? '',
  );
  expect(Number(sharp?.[1])).toBeGreaterThanOrEqual(60);
  expect(Number(sharp?.[2])).toBeGreaterThanOrEqual(80);
  await cards.first().getByRole('button', { name: /^Use / }).click();
  await expect(field(page, 'Lens pitch')).toHaveValue(lpi);
  await expect(cards.first().getByRole('button', { name: 'In use' })).toBeVisible();
  // What cannot be done is said, with how near the nearest comes.
  await type(page, 'Depth in front', '1 m');
  await expect(page.getByText(/^No lens of the usual kinds does all of it/)).toBeVisible();
  await expect(cards.first()).toContainText(/\d+ % of the depth stays sharp/);
  await page.getByRole('radio', { name: 'A flip' }).check();
  await expect(cards.first()).toContainText(/pictures change over a cone of \d+°/);
  await page.getByRole('button', { name: /^Undo/ }).click();
  const what = page.getByRole('radiogroup', { name: 'What for' });
  await expect(what.getByRole('radio', { name: 'Depth' })).toBeChecked();
  await page.reload();
  await expect(field(page, 'From nearest')).toHaveValue('1000');
});
