// @ts-check
/** Faults that fall under a weave: how each is dealt, and how what it broke is made good. */
import sharp from 'sharp';
import { loseProofCard } from '../../tools/proof-card.mjs';
import { betweenOf } from './random.mjs';
import { pause } from './studio.mjs';
import { ended, press, readSheet, ready, savedAs } from './weaving.mjs';

/** @typedef {import('playwright').Page} Page */
/** @typedef {import('./weaving.mjs').Sheet} Sheet */
/**
 * One round of a fault, the weave under way.
 * @typedef {object} Round
 * @property {Page} page
 * @property {{ width: string, height: string }} size
 * @property {Sheet & { ms: number }} whole the sheet that nothing disturbed
 * @property {(what: string) => void} lose
 */
/**
 * @typedef {object} Fault
 * @property {string} name
 * @property {(round: Round) => Promise<void>} [before] before the weave is begun
 * @property {(round: Round) => Promise<Page | void>} strike hands back the page that is there after it
 * @property {(round: Round) => Promise<void>} [after] makes good what was broken
 * @property {boolean} [pageGoes] the weave goes with its page
 * @property {boolean} [mustWeave] the sheet must come all the same
 */

const devtoolsOf = (/** @type {Page} */ page) => page.context().newCDPSession(page);
const setQuota = async (/** @type {Page} */ page, /** @type {number | undefined} */ quotaSize) => {
  const devtools = await devtoolsOf(page);
  const { origin } = new URL(page.url());
  await devtools.send('Storage.overrideQuotaForOrigin', {
    origin,
    ...(quotaSize === undefined ? {} : { quotaSize }),
  });
};

const chooseWhere = async (/** @type {Page} */ page, /** @type {string} */ name) => {
  const place = page.getByRole('radio', { name });
  if (!(await place.isVisible()))
    await page.getByText('Where it is saved, and its figures').click();
  await place.check();
};

const spread = async (/** @type {Page} */ page) => {
  const { channels } = await sharp(await page.getByTestId('tilt-proof').screenshot()).stats();
  return Math.max(...channels.map(({ stdev }) => stdev));
};

/**
 * @param {() => number} random
 * @param {() => Promise<Page>} openPage a page with hands in it, its job laid in
 * @returns {Fault[]}
 */
export const weaveFaults = (random, openPage) => {
  const between = betweenOf(random);
  return [
    {
      name: 'weave workers ended, one or all',
      mustWeave: true,
      strike: async ({ page, lose }) => {
        const weavers = page.workers().filter((worker) => worker.url().includes('weave'));
        if (weavers.length === 0) lose('no worker was there to be ended');
        const dead = weavers.filter((_, at) => at === 0 || random() < 0.5);
        // Each ends itself, and no event tells the page.
        const end = () => globalThis.close();
        await Promise.all(dead.map((worker) => worker.evaluate(end).catch(() => undefined)));
      },
    },
    {
      name: 'the disk full in the middle of the sheet',
      before: async ({ page, whole }) => {
        const used = await page.evaluate(
          async () => (await navigator.storage.estimate()).usage ?? 0,
        );
        await setQuota(page, Math.round(used + between(0, 0.6 * whole.bytes)));
      },
      strike: async () => undefined,
      after: ({ page }) => setQuota(page, undefined),
    },
    {
      name: 'the chosen file refuses a write',
      before: async ({ page }) => {
        await chooseWhere(page, 'A file I choose');
        await page.evaluate(async () => {
          const root = await navigator.storage.getDirectory();
          await root.removeEntry('chosen.png').catch(() => undefined);
        });
        await page.evaluate(
          (writes) => Object.assign(globalThis, { writesTaken: writes }),
          Math.floor(between(0, 12)),
        );
      },
      strike: async () => undefined,
      after: async ({ page, whole, lose }) => {
        await page.evaluate(() => Object.assign(globalThis, { writesTaken: Infinity }));
        if ((await savedAs(page).count()) > 0) {
          const saved = await readSheet(page, 'chosen.png');
          if (typeof saved === 'string' || saved.digest !== whole.digest)
            lose(`told as saved: ${JSON.stringify(saved)}`);
        } else {
          const bytes = await page.evaluate(async () => {
            const root = await navigator.storage.getDirectory();
            return (await (await root.getFileHandle('chosen.png')).getFile()).size;
          });
          if (bytes > 0) lose(`${bytes} bytes of a part lie in the chosen file`);
        }
        await press(page);
        await ended(page);
        const again = await readSheet(page, 'chosen.png');
        if (typeof again === 'string' || again.digest !== whole.digest)
          lose(`the chosen file, woven again: ${JSON.stringify(again)}`);
        await chooseWhere(page, 'Here, then download');
      },
    },
    {
      name: 'the graphics card forgets the proof',
      mustWeave: true,
      strike: async ({ page, lose }) => {
        await loseProofCard(page, 200);
        let drawn = 0;
        for (let tries = 0; tries < 40 && drawn <= 30; tries += 1) {
          drawn = await spread(page);
          await pause(200);
        }
        if (drawn <= 30) lose('the proof did not come back');
      },
    },
    {
      name: 'the tab hidden, about every other time frozen too',
      mustWeave: true,
      strike: async ({ page, lose }) => {
        const other = await page.context().newPage();
        await other.bringToFront();
        const state = await page.evaluate(() => document.visibilityState);
        if (state !== 'hidden') lose('the tab was not hidden');
        if (random() < 0.5) {
          const devtools = await devtoolsOf(page);
          await devtools.send('Page.setWebLifecycleState', { state: 'frozen' });
          await pause(between(100, 1500));
          await devtools.send('Page.setWebLifecycleState', { state: 'active' });
        }
        if ((await ended(page)) !== 'woven') lose('it was not woven out of sight');
        await other.close();
        await page.bringToFront();
      },
    },
    {
      name: 'the page reloaded',
      pageGoes: true,
      strike: async ({ page }) => {
        await page.reload();
        await ready(page);
      },
    },
    {
      name: 'the page crashes',
      pageGoes: true,
      strike: async ({ page }) => {
        const devtools = await devtoolsOf(page);
        devtools.send('Page.crash').catch(() => undefined);
        await page.waitForEvent('crash');
        const next = await openPage();
        await page.close().catch(() => undefined);
        return next;
      },
    },
  ];
};
