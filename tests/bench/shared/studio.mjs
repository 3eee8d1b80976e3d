// @ts-check
/** The built studio in a real browser, as the benches drive it: by the same labels a person reads. */
import { createServer } from 'node:net';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { spawn } from 'node:child_process';
import { chromium } from 'playwright';
import { launchOptions, requireBrowser } from '../../tools/browser.mjs';
import { at, root } from '../../tools/house.mjs';

const freePort = () =>
  new Promise((resolve, reject) => {
    const server = createServer();
    server.once('error', reject);
    server.listen(0, '127.0.0.1', () => {
      const address = server.address();
      server.close(() => resolve(typeof address === 'object' ? address?.port : undefined));
    });
  });

export const pause = (/** @type {number} */ ms) =>
  new Promise((resolve) => setTimeout(resolve, ms));

export const serve = async () => {
  const port = await freePort();
  const child = spawn(process.execPath, [at('tests/tools/start.mjs')], {
    cwd: root,
    env: { ...process.env, PORT: String(port) },
    stdio: 'ignore',
  });
  const address = `http://localhost:${port}/`;
  for (let tries = 0; tries < 600; tries += 1) {
    const answered = await fetch(address).then(
      (response) => response.ok,
      () => false,
    );
    if (answered) return { address, child };
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
  child.kill();
  throw new Error('The studio did not come up within a minute.');
};

/**
 * Opens the studio in a browser with a fresh profile on the real disk, which is what gives the
 * page a private disk of real size.
 * @param {import('playwright').BrowserContextOptions} [screen]
 */
export const openStudio = async (screen = {}) => {
  const { address, child } = await serve();
  const profile = mkdtempSync(join(tmpdir(), 'tiltloom-bench-'));
  const context = await chromium.launchPersistentContext(profile, {
    ...launchOptions(await requireBrowser()),
    viewport: { width: 1440, height: 900 },
    acceptDownloads: true,
    ...screen,
  });
  const page = context.pages()[0] ?? (await context.newPage());
  await page.goto(`${address}#/frames`);
  await page.getByLabel('Lens pitch').waitFor();
  return {
    page,
    profile,
    close: async () => {
      await context.close();
      child.kill();
      rmSync(profile, { recursive: true, force: true });
    },
  };
};

/** @typedef {import('playwright').Page} Page */

/**
 * Types values into fields of the job sheet, each left with the Enter key.
 * @param {Page} page
 * @param {Record<string, string>} fields
 */
export const setFields = async (page, fields) => {
  for (const [label, value] of Object.entries(fields)) {
    const field = page.getByLabel(label, { exact: true });
    await field.fill(value);
    await field.press('Enter');
  }
};

/**
 * Replaces the frames of the job by these files.
 * @param {Page} page
 * @param {string[]} paths
 */
export const setFrames = async (page, paths) => {
  await page.goto(`${new URL(page.url()).origin}/#/frames`);
  await page.getByRole('button', { name: 'Remove all' }).click();
  await page.locator('input[type=file]').first().setInputFiles(paths);
  await page
    .getByText(`frame_${String(paths.length).padStart(2, '0')}.png`)
    .first()
    .waitFor();
};

/**
 * Presses Weave sheet and times it inside the page, from the press to the link being there.
 * @param {Page} page
 * @returns {Promise<{ seconds: number, longTasksMs: number[] }>}
 */
export const weave = async (page) => {
  await page.goto(`${new URL(page.url()).origin}/#/weave`);
  const button = page.getByRole('button', { name: 'Weave sheet' });
  await button.waitFor();
  await page.evaluate(() => {
    /** @type {any} */ (globalThis).bench = { tasks: [], pressedAt: 0, gone: false, linkAt: 0 };
    const record = /** @type {any} */ (globalThis).bench;
    new PerformanceObserver((list) => {
      for (const entry of list.getEntries()) record.tasks.push([entry.startTime, entry.duration]);
    }).observe({ type: 'longtask', buffered: false });
    document.addEventListener(
      'click',
      (event) => {
        if (record.pressedAt === 0) record.pressedAt = event.timeStamp;
      },
      { capture: true },
    );
    new MutationObserver(() => {
      const link = [...document.querySelectorAll('a[download]')].some((a) =>
        a.textContent?.includes('Save sheet'),
      );
      // The last sheet's link goes when the weave begins; only one that comes after that is ours.
      if (!link && record.pressedAt > 0) record.gone = true;
      if (link && record.gone && record.linkAt === 0) record.linkAt = performance.now();
    }).observe(document.body, { childList: true, subtree: true, attributes: true });
  });
  await button.click();
  await page.waitForFunction(() => /** @type {any} */ (globalThis).bench.linkAt > 0, undefined, {
    timeout: 600_000,
    polling: 200,
  });
  return page.evaluate(() => {
    const { tasks, pressedAt, linkAt } = /** @type {any} */ (globalThis).bench;
    return {
      seconds: (linkAt - pressedAt) / 1000,
      longTasksMs: tasks
        .filter((/** @type {number[]} */ [start = 0]) => start >= pressedAt && start <= linkAt)
        .map((/** @type {number[]} */ [, duration = 0]) => Math.round(duration)),
    };
  });
};

/**
 * Saves the woven sheet.
 * @param {Page} page
 * @param {string} path
 */
export const saveSheet = async (page, path) => {
  const download = page.waitForEvent('download');
  await page.getByRole('link', { name: 'Save sheet' }).click();
  await (await download).saveAs(path);
};
