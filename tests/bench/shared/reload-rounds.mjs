// @ts-check
/**
 * A number typed, Enter, and the page reloaded at a random moment after it: each round ends with the number
 * there or lost. The processor is slowed down from before the number is typed until the old page has gone, which
 * is when it can be lost; the new page loads, and is looked at, at full speed. A round whose reload came when the
 * write was known to be done proves nothing and is counted apart.
 */
import { field, ready } from './kept-work.mjs';
import { betweenOf } from './random.mjs';
import { pause } from './studio.mjs';

/** @typedef {import('playwright').Page} Page */

/** In the page: remembers over a reload what the database had said to be written before it. */
const rememberWritten = () => {
  sessionStorage.setItem('written before', sessionStorage.getItem('written') ?? '');
  sessionStorage.removeItem('written');
  const { put } = IDBObjectStore.prototype;
  IDBObjectStore.prototype.put = function (/** @type {any} */ value, /** @type {any[]} */ ...key) {
    const { print, viewSlots } = value?.job ?? {};
    if (print !== undefined)
      this.transaction.addEventListener('complete', () =>
        sessionStorage.setItem('written', `${viewSlots} ${print.viewingDistanceMm}`),
      );
    return put.call(this, value, ...key);
  };
};

/** The numbers that are typed, by the field: none that the last round may have left. */
const typed = /** @type {const} */ ({
  'View slots': (/** @type {number} */ before) => 2 + ((before + 5) % 38),
  'Viewing distance': (/** @type {number} */ before) => 300 + ((before + 37) % 500),
});
const names = /** @type {(keyof typeof typed)[]} */ (Object.keys(typed));

const numbersOf = (/** @type {Page} */ page) =>
  Promise.all(names.map(async (name) => Number(await field(page, name).inputValue())));

/** The page reloads itself so long after the next Enter: to the millisecond, however busy the driver is. */
const reloadAfterEnter = (/** @type {Page} */ page, /** @type {number} */ afterMs) =>
  page.evaluate(
    (ms) =>
      addEventListener(
        'keydown',
        ({ key }) => key === 'Enter' && setTimeout(() => location.reload(), ms),
        {
          capture: true,
          once: true,
        },
      ),
    afterMs,
  );

/** What the fields show once they show these numbers, or else after five seconds. */
const untilThere = async (/** @type {Page} */ page, /** @type {number[]} */ made) => {
  const end = performance.now() + 5000;
  for (;;) {
    const found = await numbersOf(page);
    if (found.join(' ') === made.join(' ') || performance.now() > end) return found;
    await pause(100);
  }
};

/**
 * @param {{ page: Page, address: string, random: () => number, rounds: number, slowed?: number }} setting
 *   `slowed`: how many times slower the processor is made.
 * @returns {Promise<{ struck: number, tooLate: number, lost: string[] }>} rounds whose reload came before the
 *   write was known to be done; those whose reload came after it; what was lost, in words.
 */
export const reloadRounds = async ({ page, address, random, rounds, slowed = 4 }) => {
  const between = betweenOf(random);
  await page.addInitScript(rememberWritten);
  const devtools = await page.context().newCDPSession(page);
  await devtools.send('Page.enable');
  const slow = (/** @type {number} */ rate) =>
    devtools.send('Emulation.setCPUThrottlingRate', { rate });
  /** Told once a document has taken the place of the one before it, which has had its last word by then. */
  const oldPageGone = () =>
    new Promise((resolve) => devtools.once('Page.frameNavigated', () => resolve(undefined)));
  await page.reload();
  await ready(page, address);
  const sums = { struck: 0, tooLate: 0, lost: /** @type {string[]} */ ([]) };
  for (let round = 0; round < rounds; round += 1) {
    const made = await numbersOf(page);
    const which = Math.floor(random() * names.length);
    const name = names[which] ?? 'View slots';
    made[which] = typed[name](made[which] ?? 0);
    const afterMs = between(0, 1500);
    await slow(slowed);
    await field(page, name).fill(String(made[which]));
    await reloadAfterEnter(page, afterMs);
    const gone = oldPageGone();
    const loaded = page.waitForEvent('load');
    await field(page, name).press('Enter');
    await gone;
    await slow(1);
    await loaded;
    await ready(page, address);
    const before = await page.evaluate(() => sessionStorage.getItem('written before'));
    if (before === made.join(' ')) sums.tooLate += 1;
    else sums.struck += 1;
    const found = await untilThere(page, made);
    if (found.join(' ') === made.join(' ')) continue;
    const said = await page.getByRole('alert').allInnerTexts();
    sums.lost.push(
      `round ${round}, ${name}, reloaded ${Math.round(afterMs)} ms after Enter: ` +
        `${found.join(' ')} instead of ${made.join(' ')}; told: ${said.join(' ') || 'nothing'}`,
    );
  }
  await devtools.detach();
  return sums;
};
