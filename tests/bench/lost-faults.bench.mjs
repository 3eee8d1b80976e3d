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
import { openOwnBrowser } from '../tools/own-browser.mjs';
import { keepProofContext } from '../tools/proof-card.mjs';
import { hands } from './shared/fault-hands.mjs';
import { betweenOf, randomOf } from './shared/random.mjs';
import { pause, serve, setFields } from './shared/studio.mjs';
import { weaveFaults } from './shared/weave-faults.mjs';
import { bar, ended, link, notWoven, press, readSheet, ready } from './shared/weaving.mjs';

/** @typedef {import('playwright').Page} Page */
/** @typedef {import('./shared/weaving.mjs').Sheet} Sheet */
/** @typedef {import('./shared/weave-faults.mjs').Round} Round */

const ROUNDS = Number(process.env['ROUNDS'] ?? 4);
const SEED = Number(process.env['SEED'] ?? 1);
const ONLY = process.env['ONLY'] ?? '';
/** Until a change is written, as in lost-kept. */
const SETTLED_MS = 800;
/** Few of each, so that a size comes again and its undisturbed sheet need not be woven again. */
const WIDTHS = ['3 in', '4 in', '6 in'];
const HEIGHTS = ['4 in', '6 in', '9 in'];

const random = randomOf(SEED);
const between = betweenOf(random);
const oneOf = (/** @type {string[]} */ all) =>
  /** @type {string} */ (all[Math.floor(random() * all.length)]);

const { address, child: server } = await serve();
const profile = mkdtempSync(join(tmpdir(), 'tiltloom-faults-'));
const browser = await openOwnBrowser(profile);
const { context } = browser;

const openPage = async () => {
  const page = await context.newPage();
  await page.addInitScript(hands);
  // Leaving while it weaves is asked about: yes.
  page.on('dialog', (dialog) => void dialog.accept().catch(() => undefined));
  // The card draws, also where it is emulated: one of the faults takes it away.
  await keepProofContext(page);
  await page.goto(`${address}?proof=3d#/weave`);
  await ready(page);
  return page;
};

/** What is kept of a sheet whose page went goes on, and is then as whole as any. @returns what is wrong with it */
const goneOn = async (/** @type {Page} */ page, /** @type {Sheet} */ whole) => {
  const goOn = page.getByRole('button', { name: 'Go on weaving sheet' });
  if ((await goOn.count()) > 0) {
    await goOn.click();
    if ((await ended(page)) !== 'woven') return 'it did not go on';
  } else if ((await link(page).count()) === 0) return undefined; // Nothing was kept yet.
  const sheet = await readSheet(page);
  if (typeof sheet === 'string') return `gone on: ${sheet}`;
  return sheet.digest === whole.digest ? undefined : 'gone on with other dots';
};

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
  for (const fault of weaveFaults(random, openPage).filter(({ name }) => name.includes(ONLY))) {
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
        const wrong = await goneOn(page, whole);
        if (wrong !== undefined) lose(wrong);
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
