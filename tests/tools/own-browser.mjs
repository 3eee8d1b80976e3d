// @ts-check
/**
 * A browser process of one's own, on a profile that outlives it: one that can be killed outright, and one
 * whose pages are hidden by other pages as a person's are. Playwright's own browsers never hide one.
 */
import { spawn } from 'node:child_process';
import { chromium } from 'playwright';
import { browserFlags, requireBrowser } from './browser.mjs';

/** @typedef {import('playwright').BrowserContext} Context */

/** @param {string} profile folder of the profile */
export const openOwnBrowser = async (profile) => {
  const child = spawn(
    await requireBrowser(),
    [
      ...browserFlags(),
      '--headless=new',
      // A first window still opening while one connects has been seen to hold the connection up for good.
      '--no-startup-window',
      '--remote-debugging-port=0',
      `--user-data-dir=${profile}`,
    ],
    { detached: true, stdio: ['ignore', 'ignore', 'pipe'] },
  );
  const address = await new Promise((resolve, reject) => {
    let said = '';
    child.stderr.on('data', (/** @type {Buffer} */ data) => {
      said += data.toString();
      const found = /DevTools listening on (ws:\S+)/.exec(said)?.[1];
      if (found !== undefined) resolve(found);
    });
    child.once('exit', () => reject(new Error(`The browser did not start: ${said}`)));
  });
  // Without its defaults no page is told that it has the focus while another lies in front.
  const browser = await chromium.connectOverCDP(/** @type {string} */ (address), {
    noDefaults: true,
  });
  const context = /** @type {Context} */ (browser.contexts()[0]);
  const gone = new Promise((resolve) => child.once('exit', resolve));
  return {
    context,
    kill: async () => {
      process.kill(-(/** @type {number} */ (child.pid)), 'SIGKILL');
      await gone;
    },
  };
};
