// @ts-check
/**
 * `npm test`: everything, from a bare checkout. Installs what is missing (a browser too), runs Vitest
 * and then Playwright against the built studio, and closes with one line: `N passed, N failed`.
 *
 *   npm test                    both runners
 *   npm test -- unit [filter]   Vitest alone: unit, contract and interface tests
 *   npm test -- e2e [filter]    Playwright alone
 *   npm test -- weave           in both, the files whose path has `weave` in it
 *   npm test -- wider [filter]  what is not part of the everyday run: tests whose titles end in @wider,
 *                               because they are slow, and files of tests/wider, which need readers
 *                               of the system's packages or other browsers
 */
import { existsSync, readFileSync, readdirSync, rmSync } from 'node:fs';
import { createServer } from 'node:net';
import { requireBrowser } from './browser.mjs';
import { at, ensureInstalled, run, runNode } from './house.mjs';

/** @typedef {{ passed: number, failed: number, skipped: number }} Tally */

/** @type {(file: string, code: number, count: (report: any) => Tally) => Tally} */
const tallyOf = (file, code, count) => {
  const none = { passed: 0, failed: 0, skipped: 0 };
  const tally = existsSync(file) ? count(JSON.parse(readFileSync(file, 'utf8'))) : none;
  // A runner that broke before or between its tests has failed, whatever it counted.
  return code !== 0 && tally.failed === 0 ? { ...tally, failed: 1 } : tally;
};

/** The everyday tests, or those whose titles end in @wider. @typedef {'everyday' | 'wider'} Share */

/**
 * A test file that could not be loaded has no tests in Vitest's report; it counts as one failed. Tests of
 * the other share are in the report as skipped, which is not said of them.
 */
const countVitest = (/** @type {Share} */ share) => (/** @type {any} */ report) => ({
  passed: report.numPassedTests,
  failed:
    report.numFailedTests +
    report.testResults.filter(
      (/** @type {any} */ file) =>
        file.status === 'failed' &&
        !file.assertionResults.some((/** @type {any} */ test) => test.status === 'failed'),
    ).length,
  skipped: report.testResults
    .flatMap((/** @type {any} */ file) => file.assertionResults)
    .filter(
      (/** @type {any} */ { status, fullName }) =>
        ['skipped', 'pending', 'todo'].includes(status) &&
        fullName.includes('@wider') === (share === 'wider'),
    ).length,
});

const countPlaywright = (/** @type {any} */ { stats, errors }) => ({
  passed: stats.expected + stats.flaky,
  failed: stats.unexpected + errors.length,
  skipped: stats.skipped,
});

/** Vitest loads each file it is given, so the wider run gives it only those with a wider test. */
const unitFiles = (/** @type {Share} */ share, /** @type {string[]} */ filters) => {
  if (share === 'everyday') return filters;
  return readdirSync(at('tests'), { recursive: true, encoding: 'utf8' })
    .filter((path) => /\.test\.tsx?$/.test(path))
    .filter((path) => filters.length === 0 || filters.some((filter) => path.includes(filter)))
    .map((path) => at('tests', path))
    .filter((path) => readFileSync(path, 'utf8').includes('@wider'));
};

const runVitest = async (/** @type {Share} */ share, /** @type {string[]} */ filters) => {
  const files = unitFiles(share, filters);
  if (share === 'wider' && files.length === 0) return { passed: 0, failed: 0, skipped: 0 };
  const report = at('test-results/unit.json');
  rmSync(report, { force: true });
  const { code } = await runNode([
    at('node_modules/vitest/vitest.mjs'),
    'run',
    '--passWithNoTests',
    `--testNamePattern=${share === 'wider' ? '@wider' : '^(?!.*@wider)'}`,
    '--reporter=default',
    '--reporter=json',
    `--outputFile.json=${report}`,
    ...files,
  ]);
  return tallyOf(report, code, countVitest(share));
};

/** A port that is free now, so that two runs on one machine do not meet. */
const freePort = () =>
  new Promise((resolve) => {
    const server = createServer().listen(0, 'localhost', () => {
      const address = server.address();
      server.close(() => resolve(typeof address === 'object' ? address?.port : undefined));
    });
  });

const runPlaywright = async (/** @type {Share} */ share, /** @type {string[]} */ filters) => {
  // In a process of its own, so that a broken build is one failure and not the end of the count.
  const build = await runNode([at('tests/tools/start.mjs'), '--build-only']);
  if (build.code !== 0) return { passed: 0, failed: 1, skipped: 0 };
  const report = at('test-results/e2e.json');
  rmSync(report, { force: true });
  const args = ['--config', at('tests/settings/playwright.config.ts'), '--pass-with-no-tests'];
  args.push(`--project=${share === 'wider' ? 'wider' : 'studio'}`);
  const { code } = await runNode(
    [at('node_modules/playwright/cli.js'), 'test', ...args, ...filters],
    {
      env: { TILTLOOM_TEST_PORT: String(await freePort()) },
    },
  );
  return tallyOf(report, code, countPlaywright);
};

/** Files of tests/wider in Node's own runner, whose TAP report ends in `# pass 3` and the like. */
const runBeyond = async (/** @type {string[]} */ filters) => {
  const files = readdirSync(at('tests/wider'))
    .filter((name) => name.endsWith('.wider.mjs'))
    .filter((name) => filters.length === 0 || filters.some((filter) => name.includes(filter)))
    .map((name) => at('tests/wider', name));
  /** @type {Tally} */
  const tally = { passed: 0, failed: 0, skipped: 0 };
  for (const file of files) {
    const args = ['--test', '--test-reporter=tap', file];
    const { code, output } = await run(process.execPath, args, { quiet: true });
    console.log(output);
    const count = (/** @type {string} */ word) =>
      Number(new RegExp(`^# ${word} (\\d+)$`, 'm').exec(output)?.[1] ?? 0);
    tally.passed += count('pass');
    tally.failed += count('fail') === 0 && code !== 0 ? 1 : count('fail');
    tally.skipped += count('skipped');
  }
  return tally;
};

const kinds = ['unit', 'e2e', 'wider'];
const [first = '', ...rest] = process.argv.slice(2);
const filters = kinds.includes(first) ? rest : process.argv.slice(2);

await ensureInstalled();
if (first !== 'unit') await requireBrowser();
/** @type {Tally[]} */
const tallies = [];
const share = first === 'wider' ? 'wider' : 'everyday';
if (first !== 'e2e') tallies.push(await runVitest(share, filters));
if (first !== 'unit') tallies.push(await runPlaywright(share, filters));
if (share === 'wider') tallies.push(await runBeyond(filters));

const sum = (/** @type {keyof Tally} */ key) =>
  tallies.reduce((total, tally) => total + tally[key], 0);
const [passed, failed, skipped] = [sum('passed'), sum('failed'), sum('skipped')];
console.log(skipped > 0 ? `\n${skipped} skipped` : '');
if (passed + failed === 0) console.log('No test ran: that counts as a failure.');
console.log(`${passed} passed, ${failed} failed`);
process.exitCode = failed > 0 || passed === 0 ? 1 : 0;
