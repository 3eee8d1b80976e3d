/** A change, and the page reloaded just after it: twice here, three hundred in `npm test -- wider reload`. */
import { randomOf } from '../bench/shared/random.mjs';
import { reloadRounds } from '../bench/shared/reload-rounds.mjs';
import { expect, test } from './support/kept-demo.ts';

test('a number typed just before a reload is there after it', async ({ page, baseURL }) => {
  await page.goto('#/frames');
  const { lost } = await reloadRounds({
    page,
    address: baseURL ?? '',
    random: randomOf(3),
    rounds: 2,
  });
  expect(lost).toEqual([]);
});
