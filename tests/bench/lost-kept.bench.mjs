// @ts-check
/**
 * Kept work under reloads, crashes, kills, full disks and two tabs at once, seeded: what was tried, how often, how
 * often something was at stake, and what was lost. A change counts from the moment it is made: it is lost when it
 * is not there after the blow, however short the time between. So is a job that does not open, and
 * whatever is there that nobody made. A blow that came when the last change was known to be written had nothing to
 * take: such rounds are tried, but not at stake. Prints rows of Markdown for docs/robustness.md.
 *
 *   ROUNDS=40 npm run bench -- lost-kept     more of each (8 are the default)
 *   SEED=7 npm run bench -- lost-kept        another run of luck
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { openOwnBrowser } from '../tools/own-browser.mjs';
import {
  addFiles,
  field,
  frameFiles,
  framesShown,
  journalOf,
  judge,
  noise,
  ready,
  setSlots,
  SETTLED_MS,
  slotsOf,
  typeUntil,
  watchWrites,
} from './shared/kept-work.mjs';
import { betweenOf, randomOf } from './shared/random.mjs';
import { reloadRounds } from './shared/reload-rounds.mjs';
import { pause, serve } from './shared/studio.mjs';

/** @typedef {import('playwright').Page} Page */

const ROUNDS = Number(process.env['ROUNDS'] ?? 8);
const SEED = Number(process.env['SEED'] ?? 1);

const DEMO = 'The old glasshouse';

const random = randomOf(SEED);
const between = betweenOf(random);

/** @typedef {{ what: string, tried: number, atStake: number, lost: string[], note: string }} Row */

/** @type {Row[]} */
const rows = [];
const row = (/** @type {string} */ what) => {
  /** @type {Row} */
  const made = { what, tried: 0, atStake: 0, lost: [], note: '' };
  rows.push(made);
  return made;
};

/** One round of typing that a blow ended. */
const count = (
  /** @type {Row} */ into,
  /** @type {Awaited<ReturnType<typeof typeUntil>>} */ typed,
  /** @type {{ blowAt: number, written: number | undefined, found: number }} */ {
    blowAt,
    written,
    found,
  },
) => {
  const { lost, oldestMs } = judge(typed, blowAt, found);
  into.tried += 1;
  if (written !== typed.at(-1)?.value) into.atStake += 1;
  if (lost === 0) return;
  const said = `the oldest made ${Math.round(oldestMs)} ms before`;
  into.lost.push(`round ${into.tried}: ${lost} of ${typed.length - 1} changes, ${said}`);
};

const { address, child: server } = await serve();
const profile = mkdtempSync(join(tmpdir(), 'tiltloom-lost-'));
let open = await openOwnBrowser(profile);
try {
  let page = await open.context.newPage();
  await ready(page, address);
  await page.getByText('12 for 12 slots').waitFor({ timeout: 60_000 });
  await pause(SETTLED_MS);

  const reloaded = row('page reloaded within 1.5 s after a change, processor slowed four times');
  const reloads = await reloadRounds({ page, address, random, rounds: ROUNDS });
  reloaded.tried = ROUNDS;
  reloaded.atStake = reloads.struck;
  reloaded.lost.push(...reloads.lost);
  await page.close();

  let lastWritten = await watchWrites(open.context);
  page = await open.context.newPage();
  await ready(page, address);
  const crashed = row('page crashes while a person types');
  for (let round = 0; round < ROUNDS; round += 1) {
    const typed = await typeUntil(page, random);
    const devtools = await open.context.newCDPSession(page);
    const blowAt = performance.now();
    devtools.send('Page.crash').catch(() => undefined);
    await page.waitForEvent('crash');
    const written = lastWritten();
    const next = await open.context.newPage();
    await ready(next, address);
    count(crashed, typed, { blowAt, written, found: await slotsOf(next) });
    await page.close().catch(() => undefined);
    page = next;
  }

  const killed = row('browser killed (SIGKILL) while a person types');
  for (let round = 0; round < ROUNDS; round += 1) {
    const typed = await typeUntil(page, random);
    const blowAt = performance.now();
    await open.kill();
    const written = lastWritten();
    open = await openOwnBrowser(profile);
    lastWritten = await watchWrites(open.context);
    page = await open.context.newPage();
    await ready(page, address);
    count(killed, typed, { blowAt, written, found: await slotsOf(page) });
  }

  const adding = row('browser killed while frames are being added');
  let withoutOriginal = 0;
  for (let round = 0; round < ROUNDS; round += 1) {
    const before = (await framesShown(page)).all;
    const files = await Promise.all(
      [1, 2, 3].map(async (at) => ({
        name: `set${round}_${at}.png`,
        buffer: await noise(random, 400),
      })),
    );
    await addFiles(page, files);
    await pause(between(0, 1500));
    await open.kill();
    open = await openOwnBrowser(profile);
    page = await open.context.newPage();
    await ready(page, address);
    await pause(600);
    const after = await framesShown(page);
    withoutOriginal += after.missing;
    adding.tried += 1;
    if (after.all === before || after.missing > 0) adding.atStake += 1;
    // All of them or none: one job change. And each picture is there, or said not to be.
    if (after.all !== before && after.all !== before + 3)
      adding.lost.push(`round ${round}: ${before} frames became ${after.all}`);
    const broken = await page.getByText(/breaks off|is damaged/).count();
    if (broken > 0) adding.lost.push(`round ${round}: a half written picture passes for whole`);
    if (after.missing > 0) {
      await addFiles(page, files);
      await page.getByText('original missing').first().waitFor({ state: 'hidden' });
    }
  }
  adding.note = `${withoutOriginal} frames named as without original, each given back`;

  const full = row('disk full at a random moment while frames and changes come');
  for (let round = 0; round < ROUNDS; round += 1) {
    const before = await framesShown(page);
    const devtools = await open.context.newCDPSession(page);
    const { origin } = new URL(address);
    const used = await page.evaluate(async () => (await navigator.storage.estimate()).usage ?? 0);
    const quotaSize = Math.round(used + between(0, 2_500_000));
    await devtools.send('Storage.overrideQuotaForOrigin', { origin, quotaSize });
    const value = 2 + ((await slotsOf(page)) % 38) + 1;
    await setSlots(page, value);
    const buffer = await noise(random, 400);
    const files = await frameFiles(page);
    await addFiles(page, [{ name: `full${round}.png`, buffer }]);
    const alert = page.getByRole('alert').filter({ hasText: 'No room is left' });
    // Until the copy is whole or refused, and the change has had its time.
    for (let tries = 0; tries < 100; tries += 1) {
      if ((await alert.count()) > 0 || (await frameFiles(page)) >= files + 2) break;
      await pause(150);
    }
    await pause(SETTLED_MS);
    const wasTold = (await alert.count()) > 0;
    if (wasTold) full.atStake += 1;
    await devtools.send('Storage.overrideQuotaForOrigin', { origin });
    // The next try comes by itself; here the page goes at once, as a person might.
    await page.reload();
    await ready(page, address);
    await pause(600);
    const after = await framesShown(page);
    full.tried += 1;
    if (after.all < before.all || after.missing > before.missing + 1)
      full.lost.push(`round ${round}: ${JSON.stringify({ before, after })}`);
    if (after.missing > before.missing && !wasTold)
      full.lost.push(`round ${round}: a frame was lost without a word`);
    if ((await slotsOf(page)) !== value && !wasTold)
      full.lost.push(`round ${round}: a change was lost without a word`);
    if (after.missing > 0) {
      await page.getByRole('button', { name: 'Undo' }).first().click();
      await pause(SETTLED_MS);
    }
  }
  full.note = 'at stake: there was no room; told each time';

  const tabs = row('two tabs on one job, each taking it over at random');
  let apart = 0;
  for (let round = 0; round < ROUNDS; round += 1) {
    const other = await open.context.newPage();
    await ready(other, address);
    const made = [await slotsOf(page)];
    const left = [];
    for (let turn = 0; turn < 4; turn += 1) {
      const working = turn % 2 === 0 ? page : other;
      await working.bringToFront();
      const take = working.getByRole('button', { name: /^Take (over here|back)$/ });
      if (turn > 0) {
        await take.click();
        await take.waitFor({ state: 'hidden' });
      }
      for (let change = 0; change < 2; change += 1) {
        const value = 2 + (((made.at(-1) ?? 0) + 7) % 38);
        await setSlots(working, value);
        made.push(value);
        await pause(between(0, 600));
      }
      left.push(made.at(-1));
    }
    await pause(SETTLED_MS);
    const all = /** @type {{ name: string, slots: number }[]} */ (await journalOf(page));
    // The demo lies beside the copy that is changed, before or after it as chance has it.
    const kept = all.filter(({ name }) => name !== DEMO);
    const states = kept
      .filter(({ name }) => !name.includes('from the other tab'))
      .map(({ slots }) => slots);
    tabs.tried += 1;
    tabs.atStake += 1;
    // Quick changes of one field are one step; what each tab left when it was taken from must be there.
    let at = states.lastIndexOf(made[0] ?? 0);
    for (const value of left) at = at < 0 ? -1 : states.indexOf(value ?? 0, at);
    if (at !== states.length - 1)
      tabs.lost.push(`round ${round}: made ${made.join(' ')}, kept ${states.join(' ')}`);
    apart = kept.length - states.length;
    // The next round begins with the first tab at work. A hidden page draws nothing, and nothing stands still in it.
    await page.bringToFront();
    const back = page.getByRole('button', { name: 'Take back' });
    if ((await back.count()) > 0) await back.click();
    await other.close();
  }

  tabs.note = `${apart} changes kept as jobs of their own`;

  const many = row('200 frames: twenty changes, each written');
  await page.getByRole('button', { name: 'Jobs', exact: true }).click();
  await page.getByRole('button', { name: 'New job' }).click();
  await page.goto(`${address}#/frames`);
  await addFiles(
    page,
    await Promise.all(
      Array.from({ length: 200 }, async (_, at) => ({
        name: `f_${at}.png`,
        buffer: await noise(random, 24),
      })),
    ),
  );
  await page.getByRole('heading', { name: 'Sequence: 200 frames' }).waitFor({ timeout: 120_000 });
  await page.goto(`${address}#/plan`);
  await pause(4000);
  await page.evaluate(() => {
    const record = /** @type {any} */ (globalThis);
    record.putMs = [];
    const put = IDBObjectStore.prototype.put;
    IDBObjectStore.prototype.put = function (/** @type {any[]} */ ...given) {
      const from = performance.now();
      try {
        return put.apply(this, /** @type {any} */ (given));
      } finally {
        record.putMs.push(performance.now() - from);
      }
    };
  });
  for (let change = 0; change < 20; change += 1) {
    await field(page, 'Viewing distance').fill(String(400 + change));
    await field(page, 'Viewing distance').press('Enter');
    await pause(600);
  }
  const putMs = /** @type {number[]} */ (
    await page.evaluate(() => /** @type {any} */ (globalThis).putMs)
  );
  many.tried = 20;
  many.atStake = 20;
  const worst = Math.max(...putMs);
  await page.reload();
  await ready(page, address);
  if ((await field(page, 'Viewing distance').inputValue()) !== '419')
    many.lost.push('the last change was not there after a reload');
  many.note = `the page is held for at most ${worst.toFixed(1)} ms by a write`;

  console.log('\n| what was tried | how often | of these, at stake | rounds with a loss | |');
  console.log('| --- | ---: | ---: | ---: | --- |');
  for (const { what, tried, atStake, lost, note } of rows)
    console.log(`| ${what} | ${tried} | ${atStake} | ${lost.length} | ${note} |`);
  const lost = rows.flatMap(({ what, lost: some }) => some.map((one) => `${what}, ${one}`));
  console.log(lost.length === 0 ? '\nNothing was lost.' : `\n${lost.join('\n')}`);
  if (lost.length > 0) process.exitCode = 1;
} finally {
  await open.kill().catch(() => undefined);
  server.kill();
  rmSync(profile, { recursive: true, force: true });
}
