/** The lens finder in the built studio: asked for a wall print, answered, and the first answer taken. */
import { readFile } from 'node:fs/promises';
import { expect, test } from './support/kept-demo.ts';
import { field, showPart, type } from './support/page.ts';

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

test('says what would make the lens at hand work, and carries it out in one step', async ({
  page,
}) => {
  await page.goto('#/plan');
  const mine = page.getByRole('region', { name: 'What would make mine work' });
  await expect(mine).toContainText('It does all of it as it is.');
  // From three times as far both eyes see one view.
  await type(page, 'To farthest', '1.2 m');
  await expect(mine).toContainText('both eyes see one view');
  await mine.getByRole('button', { name: /^Look from/ }).click();
  await expect(mine).toContainText('It does all of it as it is.');
  await expect(field(page, 'Viewing distance')).not.toHaveValue('400');
  await page.getByRole('button', { name: /^Undo/ }).click();
  await expect(mine).toContainText('both eyes see one view');
  await expect(field(page, 'Viewing distance')).toHaveValue('400');
});

test('the distance can be explored, and the print stays woven for its own', async ({ page }) => {
  await page.goto('#/plan');
  const slider = page.getByRole('slider', { name: 'Explore the distance' });
  await slider.focus();
  for (let press = 0; press < 3; press += 1) await slider.press('ArrowRight');
  await expect(field(page, 'From nearest')).not.toHaveValue('400');
  await expect(field(page, 'Viewing distance')).toHaveValue('400');
  await page.getByRole('button', { name: /^Undo/ }).click();
  await expect(field(page, 'From nearest')).toHaveValue('400');
});

test('a flip on a wall: whether it flashes for people who walk past, and which way its ribs run', async ({
  page,
}) => {
  await page.goto('#/plan');
  await page.getByRole('radio', { name: 'A flip' }).check();
  await type(page, 'To farthest', '2 m');
  const wall = page.getByRole('region', { name: 'On a wall and walked past' });
  await expect(wall).toContainText('It may flash for people who walk past');
  await expect(
    page.getByRole('heading', { name: 'The flip may flash for people who walk past' }),
  ).toBeVisible();
  await type(page, 'From nearest', '1.5 m');
  await expect(wall).not.toContainText('It may flash');
  await wall.getByRole('button', { name: 'Run the ribs lying' }).click();
  await expect(wall).toContainText('Who walks past sees no flip.');
});

test('what prints take is compared, and saved as a page and as a table', async ({ page }) => {
  await page.goto('#/plan');
  await showPart(page, 'Money and time');
  const table = page.getByRole('region', { name: 'What each print takes' });
  await expect(table).toContainText(/[\d.]+ to [\d.]+ MB/);
  const jobs = page.getByRole('group', { name: /^Jobs to compare/ }).getByRole('checkbox');
  for (const box of await jobs.all()) await box.check();
  await expect(table.getByRole('columnheader')).toHaveCount(1 + (await jobs.count()));
  const [csv] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Save as CSV' }).click(),
  ]);
  const lines = (await readFile(await csv.path(), 'utf8')).trim().split('\r\n');
  expect(lines).toHaveLength(1 + (await jobs.count()));
  const [pdf] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Save as a page' }).click(),
  ]);
  expect((await readFile(await pdf.path())).subarray(0, 5).toString()).toBe('%PDF-');
});
