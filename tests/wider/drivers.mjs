// @ts-check
/**
 * Chromium, Firefox and WebKit behind the few calls a smoke test needs, each as its system carries it:
 * Chromium and Firefox (Debian's firefox-esr, by WebDriver BiDi) through puppeteer-core, WebKit (Debian's
 * WebKitGTK) through its own driver by the W3C's WebDriver protocol.
 */
import { spawn } from 'node:child_process';
import { existsSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import puppeteer from 'puppeteer-core';
import { browserFlags, requireBrowser } from '../tools/browser.mjs';
import { installPackages, isDebian } from '../tools/debian.mjs';

/**
 * @typedef {object} Driver
 * @property {(address: string) => Promise<void>} goto
 * @property {(script: string) => Promise<any>} evaluate the body of an async function, run in the page
 * @property {(css: string) => Promise<void>} click as a mouse would
 * @property {(css: string, text: string) => Promise<void>} type into a field, its text replaced, Enter after
 * @property {(css: string, paths: string[]) => Promise<void>} upload
 * @property {(path: string) => Promise<void>} shot
 * @property {() => Promise<void>} close
 */

/** @param {import('puppeteer-core').LaunchOptions} options @returns {Promise<Driver>} */
const byPuppeteer = async (options) => {
  const browser = await puppeteer.launch({ headless: true, ...options });
  const page = await browser.newPage();
  await page.setViewport({ width: 1280, height: 900 });
  const find = async (/** @type {string} */ css) => {
    const found = await page.$(css);
    if (found === null) throw new Error(`${css}: not on the page`);
    return found;
  };
  return {
    goto: async (address) => void (await page.goto(address)),
    evaluate: (script) => page.evaluate(`(async () => {${script}})()`),
    click: async (css) => (await find(css)).click(),
    type: async (css, text) => {
      const field = await find(css);
      await field.click({ count: 3 });
      await field.type(text);
      await field.press('Enter');
    },
    upload: async (css, paths) => {
      const input = await page.$(css);
      await /** @type {any} */ (input).uploadFile(...paths);
    },
    shot: async (path) => void (await page.screenshot({ path: /** @type {any} */ (path) })),
    close: () => browser.close(),
  };
};

export const chromium = async () =>
  byPuppeteer({ executablePath: await requireBrowser(), args: browserFlags() });

const need = async (/** @type {string} */ path, /** @type {string[]} */ packages) => {
  if (!existsSync(path) && isDebian()) await installPackages(packages);
  if (!existsSync(path))
    throw new Error(`${path} is not there. Debian: apt-get install ${packages.join(' ')}`);
  return path;
};

export const firefox = async () =>
  byPuppeteer({
    browser: 'firefox',
    executablePath: await need('/usr/bin/firefox-esr', ['firefox-esr']),
  });

/** Names of keys in the protocol: W3C WebDriver, "Keyboard actions". */
const BACKSPACE = '\uE003';
const ENTER = '\uE007';
const END = '\uE010';
/** What the protocol calls an element, W3C WebDriver, "Elements". */
const ELEMENT = 'element-6066-11e4-a52e-4f735466cecf';

/** WebKitGTK's own small browser, in a folder named after machine and version. */
const miniBrowser = () => {
  const libraries = '/usr/lib';
  for (const machine of readdirSync(libraries).filter((name) => name.endsWith('-linux-gnu')))
    for (const name of readdirSync(join(libraries, machine)).filter((n) =>
      n.startsWith('webkit2gtk-4'),
    )) {
      const path = join(libraries, machine, name, 'MiniBrowser');
      if (existsSync(path)) return path;
    }
  return undefined;
};

/** @returns {Promise<Driver>} */
export const webkit = async () => {
  await need('/usr/bin/WebKitWebDriver', ['webkit2gtk-driver', 'xvfb']);
  await need('/usr/bin/Xvfb', ['xvfb']);
  const binary = miniBrowser();
  if (binary === undefined) throw new Error('WebKitGTK’s MiniBrowser is not there.');
  const [display, port] = [`:${90 + (process.pid % 100)}`, 40000 + (process.pid % 10000)];
  const screen = spawn('Xvfb', [display, '-screen', '0', '1400x1000x24'], { stdio: 'ignore' });
  const driver = spawn('WebKitWebDriver', [`--port=${port}`], {
    stdio: 'ignore',
    env: { ...process.env, DISPLAY: display },
  });
  /** @type {(method: string, path: string, body?: object) => Promise<any>} */
  const call = async (method, path, body) => {
    const answer = await fetch(`http://127.0.0.1:${port}${path}`, {
      method,
      ...(body === undefined ? {} : { body: JSON.stringify(body) }),
    });
    const { value } = /** @type {any} */ (await answer.json());
    if (!answer.ok) throw new Error(`${path}: ${value?.message ?? answer.status}`);
    return value;
  };
  const begin = async (/** @type {number} */ tries) => {
    try {
      const options = { binary, args: ['--automation'] };
      const capabilities = { alwaysMatch: { 'webkitgtk:browserOptions': options } };
      return await call('POST', '/session', { capabilities });
    } catch (error) {
      if (tries === 0) throw error;
      await new Promise((resolve) => setTimeout(resolve, 500));
      return begin(tries - 1);
    }
  };
  const at = `/session/${(await begin(20)).sessionId}`;
  await call('POST', `${at}/timeouts`, { script: 300_000, pageLoad: 60_000 });
  await call('POST', `${at}/window/rect`, { width: 1280, height: 900 });
  const find = async (/** @type {string} */ css) =>
    (await call('POST', `${at}/element`, { using: 'css selector', value: css }))[ELEMENT];
  const keys = async (/** @type {string} */ css, /** @type {string} */ text) =>
    call('POST', `${at}/element/${await find(css)}/value`, { text });
  return {
    goto: (address) => call('POST', `${at}/url`, { url: address }),
    evaluate: async (script) => {
      const wrapped = `const done = arguments[0];
        (async () => {${script}})().then((value) => done({ value }), (error) => done({ error: String(error) }));`;
      const { value, error } = await call('POST', `${at}/execute/async`, {
        script: wrapped,
        args: [],
      });
      if (error !== undefined) throw new Error(error);
      return value;
    },
    click: async (css) => call('POST', `${at}/element/${await find(css)}/click`, {}),
    type: async (css, text) => keys(css, `${END}${BACKSPACE.repeat(12)}${text}${ENTER}`),
    upload: async (css, paths) => keys(css, paths.join('\n')),
    shot: async (path) =>
      writeFileSync(path, Buffer.from(await call('GET', `${at}/screenshot`), 'base64')),
    close: async () => {
      await call('DELETE', at).catch(() => undefined);
      driver.kill();
      screen.kill();
    },
  };
};
