// @ts-check
/**
 * The browser that tests and benches drive: one that is on this machine already, or on Debian the
 * system's own package. A browser is never downloaded from anywhere else.
 *
 *   import { launchOptions, requireBrowser } from '../tools/browser.mjs';
 *   const browser = await chromium.launch(launchOptions(await requireBrowser()));
 */
import { accessSync, constants } from 'node:fs';
import { homedir } from 'node:os';
import { delimiter, join } from 'node:path';
import { installPackages, isDebian, isRoot } from './debian.mjs';
import { giveUp } from './house.mjs';

const names = [
  'chromium',
  'chromium-browser',
  'google-chrome',
  'google-chrome-stable',
  'microsoft-edge',
  'microsoft-edge-stable',
];

const canRun = (/** @type {string} */ path) => {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
};

/** Where this kind of system usually keeps Chromium, Chrome and Edge. */
const usualPlaces = () => {
  const onPath = (process.env['PATH'] ?? '').split(delimiter).filter((folder) => folder !== '');
  if (process.platform === 'darwin')
    return ['Chromium', 'Google Chrome', 'Microsoft Edge'].flatMap((name) =>
      ['/Applications', join(homedir(), 'Applications')].map(
        (folder) => `${folder}/${name}.app/Contents/MacOS/${name}`,
      ),
    );
  if (process.platform === 'win32')
    return ['ProgramFiles', 'ProgramFiles(x86)', 'LOCALAPPDATA'].flatMap((variable) => {
      const folder = process.env[variable];
      if (folder === undefined) return [];
      return [
        join(folder, 'Chromium/Application/chrome.exe'),
        join(folder, 'Google/Chrome/Application/chrome.exe'),
        join(folder, 'Microsoft/Edge/Application/msedge.exe'),
      ];
    });
  return [...onPath, '/usr/bin', '/usr/local/bin', '/snap/bin'].flatMap((folder) =>
    names.map((name) => join(folder, name)),
  );
};

/**
 * Path of a browser on this machine, or undefined. `CHROMIUM_PATH` goes before all else, and ends
 * the run when it names nothing that can be run.
 * @returns {string | undefined}
 */
export const findBrowser = () => {
  const told = process.env['CHROMIUM_PATH'];
  if (told === undefined || told === '') return usualPlaces().find(canRun);
  if (!canRun(told)) giveUp(`CHROMIUM_PATH names "${told}", which is not there or cannot be run.`);
  return told;
};

/** Path of a browser, installed first where that is possible; otherwise says what to install. */
export const requireBrowser = async () => {
  if (findBrowser() === undefined && isDebian()) await installPackages(['chromium']);
  return (
    findBrowser() ??
    giveUp(
      'The tests drive a real browser and found none. Install Chromium, Chrome or Edge ' +
        '(Debian: apt-get install chromium), or set CHROMIUM_PATH to the one you have.',
    )
  );
};

/**
 * Parts of the browser that tests do without. The last such flag wins, so this one repeats what Playwright
 * turns off and a test could notice.
 */
const withoutFeatures = [
  // The list under the address bar is two pages of the browser's own, and each new tab of ours loads them:
  // half as much work again as the studio's first view.
  'WebUIOmniboxPopup',
  'WebUIOmniboxAimPopup',
  'AvoidUnnecessaryBeforeUnloadCheckSync',
  'DestroyProfileOnBrowserClose',
  'HttpsUpgrades',
  'HttpsFirstBalancedModeAutoEnable',
  'LensOverlay',
  'MediaRouter',
  'PaintHolding',
  'ThirdPartyStoragePartitioning',
  'AvoidCorsURLLoaderRestartOnRedirect',
  'OptimizationHints',
  'NetworkTimeServiceQuerying',
  'AimEnabled',
  'PreconnectToSearch',
];

/** Flags for a quiet, repeatable browser that calls nobody. */
export const browserFlags = () => [
  // Chromium's sandbox refuses to run as root, which is what a container usually is.
  ...(isRoot() ? ['--no-sandbox'] : []),
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  `--disable-features=${withoutFeatures.join(',')}`,
];

/** For Playwright's `chromium.launch` and the `launchOptions` of its test runner. */
export const launchOptions = (/** @type {string} */ executablePath) => ({
  executablePath,
  args: browserFlags(),
});
