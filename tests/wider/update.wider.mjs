// @ts-check
/**
 * A newer studio put on the server while tabs are open: every tab stays whole as the version it began as,
 * nothing reloads by itself, no weave is broken off, and the change, once asked for, is of all tabs at once.
 */
import assert from 'node:assert/strict';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, before, describe, it } from 'node:test';
import { chromium } from 'playwright';
import sharp from 'sharp';
import { saveSheet, setFields } from '../bench/shared/studio.mjs';
import { launchOptions, requireBrowser } from '../tools/browser.mjs';
import {
  field,
  kept,
  lookForNewer,
  mark,
  NEWER,
  openEveryBench,
  ready,
  stayed,
  takeJob,
  underWay,
  untilOf,
  updateNow,
  versionsOf,
} from './open-tabs.mjs';
import { beginVisit, buildVersion, endVisits } from './two-versions.mjs';

/** @typedef {import('playwright').Page} Page */

const work = mkdtempSync(join(tmpdir(), 'tiltloom-update-'));
const folderOf = (/** @type {string} */ version) => join(work, version);
/** @type {import('playwright').Browser} */
let browser;

before(async () => {
  await buildVersion('v1', folderOf('v1'));
  await buildVersion('v2', folderOf('v2'));
  browser = await chromium.launch(launchOptions(await requireBrowser()));
});
after(async () => {
  await endVisits();
  await browser.close();
  rmSync(work, { recursive: true, force: true });
});

const BUSY = 'Something is being woven, here or in another tab';

const begin = (/** @type {import('playwright').BrowserContextOptions} */ options = {}) =>
  beginVisit(browser, folderOf, options);

describe('a newer version on the server', () => {
  it('waits while tabs are open and a weave runs, then takes all tabs at once', async () => {
    const { server, open, deploy, close, faults } = await begin();
    const first = await open();
    await ready(first);
    await kept(first);
    await mark(first);
    // Large enough to be caught under way.
    await setFields(first, { 'Print width': '8 in', 'Print height': '40 in' });

    deploy('v2');
    await lookForNewer(first);
    await first.getByText(NEWER).waitFor({ timeout: 60_000 });
    await openEveryBench(first);
    assert.equal(await versionsOf(first), 'v1');

    const second = await open('#/mend');
    await second.getByText(NEWER).waitFor();
    await mark(second);
    await openEveryBench(second);
    assert.equal(await versionsOf(second), 'v1');

    await first.goto(`${server.address}#/weave`);
    await first.getByRole('button', { name: 'Weave sheet' }).click();
    await first.getByRole('progressbar', { name: 'Weaving' }).waitFor();
    for (const page of [second, first]) {
      await updateNow(page);
      await page.getByText(BUSY).waitFor();
    }
    assert.ok(await first.getByRole('progressbar', { name: 'Weaving' }).isVisible());
    await first.getByRole('link', { name: 'Save sheet' }).waitFor({ timeout: 120_000 });
    const sheet = join(work, 'v1.png');
    await saveSheet(first, sheet);
    assert.ok((await stayed(first)) && (await stayed(second)));
    assert.deepEqual([await versionsOf(first), await versionsOf(second)], ['v1', 'v1']);

    // Typed, and not yet taken by the job: 127 mm.
    await field(first, 'Print width').fill('5 in');
    const before = server.requests.length;
    await updateNow(second);
    for (const page of [first, second]) {
      await page.waitForFunction(() => !('stayed' in globalThis), undefined, { timeout: 20_000 });
      await page.getByLabel('Print width', { exact: true }).waitFor();
      assert.equal(await page.getByText(NEWER).count(), 0);
    }
    for (const page of [first, second]) {
      assert.match(await field(page, 'Print width').inputValue(), /^127/);
      await openEveryBench(page);
      assert.equal(await versionsOf(page), 'v2');
    }
    assert.deepEqual(
      server.requests.slice(before).filter(({ found }) => !found),
      [],
    );

    // The same job, woven by the newer studio, is the same sheet. Either tab may have come back first and hold the job.
    const take = first.getByRole('button', { name: 'Take over here' });
    if ((await take.count()) > 0) {
      await take.click();
      await take.waitFor({ state: 'hidden' });
    }
    await setFields(first, { 'Print width': '8 in' });
    await first.goto(`${server.address}#/weave`);
    await first.getByRole('button', { name: 'Weave sheet' }).click();
    await first.getByRole('link', { name: 'Save sheet' }).waitFor({ timeout: 120_000 });
    const again = join(work, 'v2.png');
    await saveSheet(first, again);
    const [a, b] = await Promise.all(
      [sheet, again].map((path) => sharp(path).raw().toBuffer({ resolveWithObject: true })),
    );
    assert.deepEqual([a?.info.width, a?.info.height], [8 * 720, 40 * 720]);
    assert.ok(a?.data.equals(/** @type {Buffer} */ (b?.data)), 'the dots differ');
    assert.deepEqual(faults, []);
    await close();
  });

  it('takes a tab that weaves along only when it is asked to', async () => {
    const { open, deploy, close } = await begin();
    const page = await open();
    await ready(page);
    await kept(page);
    await setFields(page, { 'Print height': '40 in' });
    deploy('v2');
    await lookForNewer(page);
    await page.getByText(NEWER).waitFor({ timeout: 60_000 });
    await mark(page);
    await page.getByRole('button', { name: 'Weave sheet' }).click();
    await underWay(page);
    // Past the studio's own care, as a browser's tools or an extension can do it.
    await page.evaluate(async () => {
      const { waiting } = await navigator.serviceWorker.ready;
      waiting?.postMessage({ type: 'SKIP_WAITING' });
    });
    await page.getByText(BUSY).waitFor();
    await page.getByRole('link', { name: 'Save sheet' }).waitFor({ timeout: 120_000 });
    const sheet = join(work, 'forced.png');
    await saveSheet(page, sheet);
    // Decoded to its last row, or this throws.
    const { info } = await sharp(sheet).raw().toBuffer({ resolveWithObject: true });
    assert.equal(info.height, 40 * 720);
    assert.ok(await stayed(page));
    await updateNow(page);
    await page.waitForFunction(() => !('stayed' in globalThis));
    await ready(page);
    assert.equal(await versionsOf(page), 'v2');
    await close();
  });

  it('is not taken while it is only half in its place, whatever comes first', async () => {
    // The page last; the service worker first; the service worker last.
    for (const early of [/^(?!\/index\.html$)/, /^\/(sw|workbox-.*)\.js$/, /^(?!\/sw\.js$)/]) {
      const { server, open, deploy, giveBy, close } = await begin();
      const page = await open();
      await ready(page);
      await kept(page);
      giveBy((path) => (early.test(path) ? 'v2' : 'v1'));
      for (let tries = 0; tries < 2; tries += 1) {
        await lookForNewer(page).catch(() => undefined);
        // Until the browser has given the half one up, where it was begun at all.
        await page.waitForFunction(async () => {
          const registration = await navigator.serviceWorker.getRegistration();
          return registration?.installing === null;
        });
      }
      await page.waitForTimeout(300);
      assert.equal(await page.getByText(NEWER).count(), 0);
      const again = await open('#/mend');
      await openEveryBench(again);
      assert.equal(await versionsOf(again), 'v1');

      deploy('v2');
      await lookForNewer(page);
      await page.getByText(NEWER).waitFor({ timeout: 60_000 });
      await updateNow(again);
      for (const tab of [page, again]) {
        await tab.waitForFunction(
          () => /** @type {any} */ (globalThis).studioVersions?.[0] === 'v2',
          undefined,
          { timeout: 20_000 },
        );
        await openEveryBench(tab);
        assert.equal(await versionsOf(tab), 'v2');
      }
      assert.ok(server.requests.length > 0);
      await close();
    }
  });

  it('that came in the middle of a first visit is told of before anything is missing', async () => {
    const { open, giveBy, deploy, close } = await begin();
    // The page is version 1; by the time that its service worker is fetched, the server has version 2.
    giveBy((path) => {
      if (path !== '/sw.js') return 'v1';
      deploy('v2');
      return 'v2';
    });
    const page = await open();
    await page.getByText(NEWER).waitFor({ timeout: 60_000 });
    await mark(page);
    assert.equal(await versionsOf(page), 'v1');
    await updateNow(page);
    await page.waitForFunction(() => !('stayed' in globalThis));
    await ready(page);
    await openEveryBench(page);
    assert.equal(await versionsOf(page), 'v2');
    await close();
  });

  it('leaves a tab without a kept version standing, with a word and a way on', async () => {
    const { open, deploy, close } = await begin({ serviceWorkers: 'block' });
    const page = await open();
    await ready(page);
    await setFields(page, { 'Print width': '5 in' });
    deploy('v2');
    await page.evaluate(() => (location.hash = '#/mend'));
    await page.getByText('The studio on the server is newer than this page').waitFor();
    await page.getByText('This part could not be loaded').waitFor();
    await page.getByRole('button', { name: 'Jobs' }).click();
    // Neither did the list of jobs come, and the bench that was open works on.
    await page.evaluate(() => (location.hash = '#/weave'));
    await ready(page);
    assert.equal(await versionsOf(page), 'v1');
    await page.getByRole('button', { name: 'Reload the page' }).click();
    await ready(page);
    assert.match(await field(page, 'Print width').inputValue(), /^127/);
    await openEveryBench(page);
    assert.equal(await versionsOf(page), 'v2');
    await close();
  });

  it('that a page meets between its first line and its script is not a blank page', async () => {
    const { open, giveBy, close } = await begin({ serviceWorkers: 'block' });
    giveBy((path) => (path === '/index.html' ? 'v1' : 'v2'));
    const page = await open();
    await page.getByText('If this stays, reload the page').waitFor();
    await close();
  });
});

/** Park and Miller's generator, 1988: the same run for the same seed. */
const randomFrom = (/** @type {number} */ seed) => () =>
  (seed = (seed * 48271) % 2147483647) / 2147483647;

it('again and again, with a tab opened in the midst of it', async (t) => {
  const rounds = Number(process.env['ROUNDS'] ?? 4);
  const random = randomFrom(Number(process.env['SEED'] ?? 20261125));
  const { open, deploy, close, faults } = await begin();
  const first = await open();
  await ready(first);
  await kept(first);
  await setFields(first, { 'Print width': '127' });
  const tabs = [first, await open('#/mend')];
  const counts = { 'by itself': 0, told: 0 };
  for (let round = 1; round <= rounds; round += 1) {
    const next = round % 2 === 1 ? 'v2' : 'v1';
    const [writer, asker] = /** @type {[Page, Page]} */ (
      random() < 0.5 ? tabs : [...tabs].reverse()
    );
    await takeJob(writer);
    deploy(next);
    await lookForNewer(asker);
    await asker.getByText(NEWER).waitFor({ timeout: 60_000 });
    const wide = 80 + Math.round(random() * 60);
    await field(writer, 'Print width').fill(String(wide));
    const midst = await asker.context().newPage();
    await Promise.all([
      asker.waitForTimeout(random() * 400).then(() => updateNow(asker)),
      asker.waitForTimeout(random() * 800).then(() => midst.goto(asker.url())),
    ]);
    for (const tab of [writer, asker, midst]) {
      counts[await untilOf(tab, next)] += 1;
    }
    await midst.close();
    // Typed and not yet taken when the page went, and there whichever tab goes on with the job.
    for (const tab of [writer, asker]) {
      await takeJob(tab);
      const wider = await field(tab, 'Print width').inputValue();
      assert.equal(wider, String(wide), `round ${round}, ${tab === writer ? 'writer' : 'asker'}`);
    }
  }
  assert.deepEqual(faults, []);
  t.diagnostic(`${rounds} changes, ${rounds * 3} tabs: ${JSON.stringify(counts)}`);
  await close();
});
