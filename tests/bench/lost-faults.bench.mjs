// @ts-check
/**
 * Faults under a weave, seeded: each falls at a random moment of a sheet of a random size, in the built
 * studio on a profile on the real disk. After it no part may pass for a whole sheet (what is offered must unpack to
 * every row, with the dots of the sheet that nothing disturbed), the job and its frames must be there, and
 * weaving again must give those dots. Prints rows of Markdown for docs/robustness.md.
 *
 *   ROUNDS=10 npm run bench -- lost-faults     more of each (4 are the default)
 *   SEED=7 npm run bench -- lost-faults        another run of luck
 *   ONLY=crash npm run bench -- lost-faults    faults with this in their name
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { openOwnBrowser } from '../tools/own-browser.mjs';
import { randomOf } from './shared/random.mjs';
import { serve, setFields } from './shared/studio.mjs';
import { bar, ended, link, notWoven, press, readSheet, savedAs } from './shared/weaving.mjs';

/** @typedef {import('playwright').Page} Page */
/** @typedef {import('./shared/weaving.mjs').Sheet} Sheet */
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

const ROUNDS = Number(process.env['ROUNDS'] ?? 4);
const SEED = Number(process.env['SEED'] ?? 1);
const ONLY = process.env['ONLY'] ?? '';
/** Until a change is written, as in lost-kept. */
const SETTLED_MS = 800;
/** Few of each, so that a size comes again and its undisturbed sheet need not be woven again. */
const WIDTHS = ['3 in', '4 in', '6 in'];
const HEIGHTS = ['4 in', '6 in', '9 in'];

const random = randomOf(SEED);
const between = (/** @type {number} */ from, /** @type {number} */ to) =>
  from + random() * (to - from);
const oneOf = (/** @type {string[]} */ all) =>
  /** @type {string} */ (all[Math.floor(random() * all.length)]);
const pause = (/** @type {number} */ ms) => new Promise((resolve) => setTimeout(resolve, ms));

/** Runs in every page before the studio: what the faults need a hand on. */
const hands = () => {
  const own = globalThis.Worker;
  /** @type {{ worker: Worker, name: string }[]} */
  const made = [];
  Object.assign(globalThis, {
    Worker: class extends own {
      /** @param {string | URL} address @param {WorkerOptions} [options] */
      constructor(address, options) {
        super(address, options);
        made.push({ worker: this, name: String(address) });
      }
    },
    /** Ends weave workers, each by its own draw, at least one; word of it comes as from a browser. */
    endWeavers: (/** @type {number[]} */ draws) => {
      const weavers = made.splice(0).filter(({ name }) => name.includes('weave'));
      const dead = weavers.filter((_, at) => at === 0 || (draws[at % draws.length] ?? 0) < 0.5);
      for (const { worker } of dead) worker.terminate();
      for (const { worker } of dead)
        worker.dispatchEvent(new ErrorEvent('error', { cancelable: true }));
      return dead.length;
    },
    /** Writes that the chosen file still takes. */
    writesTaken: Infinity,
    showSaveFilePicker: async () => {
      const root = await navigator.storage.getDirectory();
      const handle = await root.getFileHandle('chosen.png', { create: true });
      const stream = await handle.createWritable();
      const write = async (/** @type {any} */ part) => {
        const all = /** @type {any} */ (globalThis);
        all.writesTaken -= 1;
        if (all.writesTaken >= 0) return stream.write(part);
        throw new DOMException('The permission was withdrawn', 'NotAllowedError');
      };
      const close = () => stream.close();
      const abort = () => stream.abort();
      return { name: handle.name, createWritable: async () => ({ write, close, abort }) };
    },
  });
};

const { address, child: server } = await serve();
const profile = mkdtempSync(join(tmpdir(), 'tiltloom-faults-'));
const browser = await openOwnBrowser(profile);
const { context } = browser;

const ready = async (/** @type {Page} */ page) => {
  await page.getByText('12 for 12 slots').waitFor({ timeout: 60_000 });
};
const openPage = async () => {
  const page = await context.newPage();
  await page.addInitScript(hands);
  // Leaving while it weaves is asked about: yes.
  page.on('dialog', (dialog) => void dialog.accept().catch(() => undefined));
  await page.goto(`${address}#/weave`);
  await ready(page);
  return page;
};
const devtoolsOf = (/** @type {Page} */ page) => context.newCDPSession(page);
const setQuota = async (/** @type {Page} */ page, /** @type {number | undefined} */ quotaSize) => {
  const devtools = await devtoolsOf(page);
  const { origin } = new URL(address);
  await devtools.send('Storage.overrideQuotaForOrigin', {
    origin,
    ...(quotaSize === undefined ? {} : { quotaSize }),
  });
};
const chooseWhere = (/** @type {Page} */ page, /** @type {string} */ name) =>
  page.getByRole('radio', { name }).check();

/** Half-written sheets of pages that went are given back at the next start. */
const filesLeft = (/** @type {Page} */ page) =>
  page.evaluate(async () => {
    const root = await navigator.storage.getDirectory();
    const folder = await root.getDirectoryHandle('sheets', { create: true });
    let files = 0;
    for await (const _ of /** @type {any} */ (folder).keys()) files += 1;
    return files;
  });

const spread = async (/** @type {Page} */ page) => {
  const { channels } = await sharp(await page.getByTestId('tilt-proof').screenshot()).stats();
  return Math.max(...channels.map(({ stdev }) => stdev));
};

/** @type {Fault[]} */
const faults = [
  {
    name: 'weave workers ended, one or all',
    mustWeave: true,
    strike: async ({ page, lose }) => {
      const draws = [random(), random(), random()];
      const dead = await page.evaluate(
        (all) => /** @type {any} */ (globalThis).endWeavers(all),
        draws,
      );
      if (dead === 0) lose('no worker was there to be ended');
    },
  },
  {
    name: 'the disk full in the middle of the sheet',
    before: async ({ page, whole }) => {
      const used = await page.evaluate(async () => (await navigator.storage.estimate()).usage ?? 0);
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
      await page.locator('[data-testid="tilt-proof"] canvas').evaluate(async (canvas) => {
        const gl = /** @type {HTMLCanvasElement} */ (canvas).getContext('webgl2');
        const lost = gl?.getExtension('WEBGL_lose_context');
        if (lost === null || lost === undefined) throw new Error('No context to lose.');
        lost.loseContext();
        await new Promise((resolve) => setTimeout(resolve, 200));
        lost.restoreContext();
      });
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
      const other = await context.newPage();
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

/** @type {Map<string, Sheet & { ms: number }>} */
const undisturbed = new Map();
/** The sheet of this size, woven in view and in peace; once a size. */
const wholeOf = async (/** @type {Page} */ page, /** @type {string} */ key) => {
  const known = undisturbed.get(key);
  if (known !== undefined) return known;
  await press(page);
  const from = performance.now();
  if ((await ended(page)) !== 'woven') throw new Error(`The sheet of ${key} was not woven at all.`);
  const ms = performance.now() - from;
  const sheet = await readSheet(page);
  if (typeof sheet === 'string') throw new Error(`The sheet of ${key}: ${sheet}`);
  const whole = { ...sheet, ms };
  undisturbed.set(key, whole);
  return whole;
};

/** What must hold once the fault is over, whatever it was. */
const judge = async (/** @type {Round} */ { page, size, whole, lose }) => {
  if ((await page.getByText('12 for 12 slots').count()) === 0) lose('frames are not there');
  for (const [label, value] of [
    ['Print width', size.width],
    ['Print height', size.height],
  ]) {
    const shown = await page.getByLabel(String(label), { exact: true }).inputValue();
    const mm = Number.parseFloat(String(value)) * 25.4;
    if (![mm, mm / 25.4].some((one) => Math.abs(one - Number.parseFloat(shown)) < 0.01))
      lose(`${label} is ${shown}, not ${value}`);
  }
  if ((await link(page).count()) === 0) return;
  const offered = await readSheet(page);
  if (typeof offered === 'string') lose(`a part passes for a sheet: ${offered}`);
  else if (offered.digest !== whole.digest) lose('other dots than the undisturbed sheet');
};

const rows = [];
try {
  let page = await openPage();
  for (const fault of faults.filter(({ name }) => name.includes(ONLY))) {
    /** @type {string[]} */
    const lost = [];
    const sums = { underWay: 0, woven: 0, told: 0 };
    for (let round = 0; round < ROUNDS; round += 1) {
      const size = { width: oneOf(WIDTHS), height: oneOf(HEIGHTS) };
      const lose = (/** @type {string} */ what) =>
        lost.push(`${fault.name}, round ${round}, ${size.width} × ${size.height}: ${what}`);
      await setFields(page, { 'Print width': size.width, 'Print height': size.height });
      await pause(SETTLED_MS);
      const whole = await wholeOf(page, `${size.width} × ${size.height}`);
      /** @type {Round} */
      const now = { page, size, whole, lose };
      await fault.before?.(now);
      await press(page);
      // From when it is seen to be under way, which is a little after it began.
      await pause(between(0, 0.9 * whole.ms));
      if ((await bar(page).count()) > 0) sums.underWay += 1;
      const next = await fault.strike(now);
      if (next !== undefined) now.page = page = next;
      if (fault.pageGoes === true) {
        if ((await link(page).count()) > 0) lose('a link from a page that went');
        if ((await filesLeft(page)) > 0) lose('a part is left on the private disk');
        sums.told += 1;
      } else {
        const end = await ended(page);
        if (end === 'woven') sums.woven += 1;
        else if (end === 'told') sums.told += 1;
        if (end === 'nothing') lose('neither woven nor told');
        if (end === 'told' && fault.mustWeave === true)
          lose(`not woven: ${await notWoven(page).locator('..').innerText()}`);
        if (end === 'told' && (await link(page).count()) > 0)
          lose('told, and offered all the same');
      }
      await judge(now);
      await fault.after?.(now);
      await press(page);
      const from = performance.now();
      if ((await ended(page)) !== 'woven') lose('not woven again');
      // The machine may be busier by now than it was, or less so.
      whole.ms = performance.now() - from;
      await judge(now);
    }
    // A full disk and a file that refuses fall on a write, which no page tells of.
    const underWay = fault.before === undefined ? String(sums.underWay) : '–';
    rows.push({ name: fault.name, lost, ...sums, underWay });
    console.log(`${fault.name}: ${JSON.stringify(sums)}, lost ${lost.length}`);
  }

  console.log(
    '\n| what is caused | how often | of these, the weave under way | woven all the same | broken off, woven again | lost |',
  );
  console.log('| --- | ---: | ---: | ---: | ---: | ---: |');
  for (const { name, underWay, woven, told, lost } of rows)
    console.log(`| ${name} | ${ROUNDS} | ${underWay} | ${woven} | ${told} | ${lost.length} |`);
  const lost = rows.flatMap((one) => one.lost);
  console.log(lost.length === 0 ? '\nNothing was lost.' : `\n${lost.join('\n')}`);
  if (lost.length > 0) process.exitCode = 1;
} finally {
  await browser.kill().catch(() => undefined);
  server.kill();
  rmSync(profile, { recursive: true, force: true });
}
