/** End-to-end tests: the built studio in a real browser, served by the same script as `npm start`. */
import { defineConfig } from 'playwright/test';
import { launchOptions, requireBrowser } from '../tools/browser.mjs';
import { root } from '../tools/house.mjs';

const port = Number(process.env['TILTLOOM_TEST_PORT'] ?? 4273);
const studio = { testMatch: '**/*.e2e.ts', dependencies: ['first visit'] };
const inCi = process.env['CI'] !== undefined;

export default defineConfig({
  testDir: '../e2e',
  outputDir: '../../test-results/e2e',
  // Pages wait for disks and workers as often as they compute: two at once end sooner, on two cores too.
  workers: 2,
  forbidOnly: inCi,
  retries: inCi ? 1 : 0,
  maxFailures: inCi ? 10 : 0,
  // A busy or slow machine is not a wrong one: nothing is said of speed here, npm run bench measures that.
  timeout: 300_000,
  expect: { timeout: 60_000 },
  reporter: [['list'], ['json', { outputFile: '../../test-results/e2e.json' }]],
  use: {
    baseURL: `http://localhost:${port}/`,
    viewport: { width: 1440, height: 900 },
    // What the studio keeps for later is tested where it is wanted.
    serviceWorkers: 'block',
    trace: 'on-first-retry',
    screenshot: 'only-on-failure',
    launchOptions: launchOptions(await requireBrowser()),
  },
  // `npm test` chooses one of the last two: a title that ends in @wider is for `npm test -- wider`.
  projects: [
    { name: 'first visit', testMatch: '**/*.setup.ts' },
    { ...studio, name: 'studio', grepInvert: /@wider/ },
    { ...studio, name: 'wider', grep: /@wider/ },
  ],
  webServer: {
    command: 'node tests/tools/start.mjs',
    cwd: root,
    env: { PORT: String(port) },
    url: `http://localhost:${port}/`,
    reuseExistingServer: false,
    timeout: 300_000,
  },
});
