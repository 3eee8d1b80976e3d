// @ts-check
/** Open tabs of a studio whose server gets a newer version: what they are of, and what a person does in them. */
import assert from 'node:assert/strict';

/** @typedef {import('playwright').Page} Page */

export const NEWER = 'A new version is ready';
const benches = ['plan', 'shoot', 'calibrate', 'frames', 'weave', 'mount', 'mend'];

export const ready = (/** @type {Page} */ page) =>
  page.getByText('12 for 12 slots').first().waitFor({ timeout: 60_000 });

/** Until the browser keeps the whole version, and it is in charge of this very page. */
export const kept = async (/** @type {Page} */ page) => {
  const inCharge = () =>
    page.evaluate(() => navigator.serviceWorker.controller?.state === 'activated');
  for (const end = Date.now() + 60_000; Date.now() < end;) {
    if (await inCharge()) return;
    await page.waitForTimeout(100);
  }
  throw new Error('After a minute nothing keeps the studio for this page.');
};

/** Versions that any part of this page was of. */
export const versionsOf = (/** @type {Page} */ page) =>
  page.evaluate(() => [...new Set(/** @type {any} */ (globalThis).studioVersions)].join(' and '));

export const openEveryBench = async (/** @type {Page} */ page) => {
  // The desk is there, and listens to the address.
  await page.getByLabel('Print width', { exact: true }).waitFor();
  for (const bench of benches) {
    await page.evaluate((name) => (location.hash = `#/${name}`), bench);
    await page
      .locator(`main h1`)
      .filter({ hasText: new RegExp(`^${bench}$`, 'i') })
      .waitFor();
    await page.getByRole('heading', { level: 2 }).first().waitFor({ timeout: 20_000 });
  }
};

export const lookForNewer = (/** @type {Page} */ page) =>
  page.evaluate(async () => void (await (await navigator.serviceWorker.ready).update()));

/** Marks the document, so that a reload shows. */
export const mark = (/** @type {Page} */ page) =>
  page.evaluate(() => void Reflect.set(globalThis, 'stayed', true));
export const stayed = (/** @type {Page} */ page) =>
  page.evaluate(() => /** @type {any} */ (globalThis).stayed === true);

export const updateNow = (/** @type {Page} */ page) =>
  page.getByRole('button', { name: 'Update now' }).click();

/** The weave's workers are there and have woven a part: before that they may still be asked for. */
export const underWay = async (/** @type {Page} */ page) => {
  const bar = page.getByRole('progressbar', { name: 'Weaving' });
  const share = () => bar.evaluate((one) => /** @type {HTMLProgressElement} */ (one).value);
  while ((await share()) === 0) await page.waitForTimeout(20);
};

export const field = (/** @type {Page} */ page, /** @type {string} */ label) =>
  page.getByLabel(label, { exact: true });

/** The tab that has the job; another may have been quicker when all came again. */
export const takeJob = async (/** @type {Page} */ page) => {
  await page.getByLabel('Print width', { exact: true }).waitFor();
  const take = page.getByRole('button', { name: /^Take (over here|back)$/ });
  if ((await take.count()) > 0) await take.click();
  await take.waitFor({ state: 'detached' });
};

/**
 * Until this tab is wholly of that version; by hand where it says that it must be, which is counted.
 * @returns {Promise<'by itself' | 'told'>}
 */
export const untilOf = async (/** @type {Page} */ page, /** @type {string} */ version) => {
  const stands = () =>
    page
      .evaluate(() => ({
        versions: [...new Set(/** @type {any} */ (globalThis).studioVersions ?? [])].join(' and '),
        text: document.body.innerText,
      }))
      .catch(() => ({ versions: '', text: '' })); // Between two pages.
  /** @type {'by itself' | 'told'} */
  let how = 'by itself';
  let seenAt = 0;
  for (const end = Date.now() + 30_000; Date.now() < end;) {
    const { versions, text } = await stands();
    assert.doesNotMatch(versions, / and /);
    if (versions === version && text.includes('Print width')) return how;
    const isTold = text.includes(NEWER) || text.includes('If this stays');
    seenAt = isTold ? seenAt || Date.now() : 0;
    // A person would wait a moment, too.
    if (isTold && Date.now() - seenAt > 4000) {
      how = 'told';
      await page.reload();
    }
    await page.waitForTimeout(50);
  }
  throw new Error(`Not ${version} after half a minute: ${JSON.stringify(await stands())}`);
};
