// @ts-check
/**
 * A change, and a reload at a random moment within 1.5 s after it, on a processor slowed four times, in the
 * built studio on a profile on the real disk: nothing is lost. The job is a small one of the person's own.
 *
 *   ROUNDS=50 SEED=7 npm test -- wider reload     another number of rounds (300), another run of luck
 */
import assert from 'node:assert/strict';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { it } from 'node:test';
import { addFiles, noise, ready } from '../bench/shared/kept-work.mjs';
import { randomOf } from '../bench/shared/random.mjs';
import { reloadRounds } from '../bench/shared/reload-rounds.mjs';
import { serve } from '../bench/shared/studio.mjs';
import { openOwnBrowser } from '../tools/own-browser.mjs';

const ROUNDS = Number(process.env['ROUNDS'] ?? 300);
const SEED = Number(process.env['SEED'] ?? 1);

it(`keeps a number typed just before a reload, ${ROUNDS} times`, async (test) => {
  const { address, child } = await serve();
  const profile = mkdtempSync(join(tmpdir(), 'tiltloom-reload-'));
  const { context, kill } = await openOwnBrowser(profile);
  try {
    const page = await context.newPage();
    await ready(page, address);
    await page.getByText('12 for 12 slots').waitFor({ timeout: 60_000 });
    await page.getByRole('button', { name: 'Jobs', exact: true }).click();
    await page.getByRole('button', { name: 'New job' }).click();
    const random = randomOf(SEED);
    const frame = async (/** @type {string} */ name) => ({ name, buffer: await noise(random, 24) });
    await addFiles(page, [await frame('near.png'), await frame('far.png')]);
    await page.getByText('2 for 12 slots').waitFor({ timeout: 60_000 });
    const { struck, tooLate, lost } = await reloadRounds({ page, address, random, rounds: ROUNDS });
    test.diagnostic(`${struck} reloads before the write was done, ${tooLate} after it`);
    assert.deepEqual(lost, []);
    // Rounds in which nothing was at stake prove nothing.
    assert.ok(struck >= ROUNDS / 10, `only ${struck} of ${ROUNDS} reloads came in time`);
  } finally {
    await kill();
    child.kill();
    rmSync(profile, { recursive: true, force: true });
  }
});
