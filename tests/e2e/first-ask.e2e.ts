/** What a person owns is asked for once, in the built studio, and stands in the way of nothing. */
import { expect, test } from './support/any-visit.ts';
import { field, type } from './support/page.ts';
import { shrinkDemo } from './support/shrunk-demo.ts';
import { drop, firstVisit, renders } from './support/stranger.ts';

test('a first job asks once for lens, printer, size and distance, and the next one knows them', async ({
  page,
}, info) => {
  await shrinkDemo(page, 60);
  await firstVisit(page);
  const ask = page.getByRole('region', { name: /^Which lens, which printer/ });
  await expect(ask).toHaveCount(0);
  await drop(page, await renders(info));
  await expect(field(page, 'Job name')).toHaveValue('gate');
  const answer = async (question: string, typed: string) => {
    await ask.getByRole('textbox', { name: question }).fill(typed);
    await page.keyboard.press('Enter');
  };
  await answer('Pitch of your lens sheet', '0.635 mm');
  await answer('Dots of your printer', '600');
  await answer('Seen from', '5 ft');
  for (const [label, value] of [
    ['Lens pitch', '40'],
    // Nobody knows it yet: the guess keeps the shape of the ribs.
    ['Lens thickness', '1.26'],
    ['Dots across', '600'],
    ['Dots along', '600'],
    ['Viewing distance', '1524'],
  ] as const)
    await expect(field(page, label)).toHaveValue(value);
  await ask.getByRole('link', { name: /^I don’t know yet.*Its thickness/ }).click();
  await expect(page.getByRole('heading', { level: 1, name: 'Plan' })).toBeVisible();
  await expect(page.getByRole('heading', { level: 2, name: 'Which lens?' })).toBeVisible();
  await ask.getByRole('button', { name: 'Done' }).click();
  await expect(page.getByText('Only guessed: lens thickness, print size.')).toBeVisible();
  await page.reload();
  await expect(page.getByText('Only guessed: lens thickness, print size.')).toBeVisible();
  await expect(ask).toHaveCount(0);
  await type(page, 'Lens thickness', '1.3 mm');
  await type(page, 'Print width', '300 mm');
  await expect(page.getByText('Only guessed')).toHaveCount(0);
  await drop(page, [(await renders(info, 'later'))[0] ?? '']);
  await page.getByRole('button', { name: 'Begin a new job' }).click();
  await expect(field(page, 'Lens pitch')).toHaveValue('40');
  await expect(field(page, 'Dots across')).toHaveValue('600');
  await expect(ask).toHaveCount(0);
  await expect(page.getByText('Only guessed')).toHaveCount(0);
});
