// @ts-check
/**
 * Several prints on one lens sheet of of 24 × 36 in at 720 dpi, 450 megadots, filled with the
 * demo at 2 × 2.5 in. Memory is measured as for the poster, under the same bound.
 */
import { mkdtempSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { browserBytes, watchPeak } from './shared/memory.mjs';
import { openStudio, setFields } from './shared/studio.mjs';

const work = mkdtempSync(join(tmpdir(), 'tiltloom-gang-'));
const megabytes = (/** @type {number} */ bytes) => `${(bytes / 1e6).toFixed(0)} MB`;
const MOST_MS = 600_000;

try {
  const { page, profile, close } = await openStudio();
  const { origin } = new URL(page.url());
  await page.goto(`${origin}/#/weave`);
  // The demo is laid in first, or it would replace the job under our hands.
  await page.getByText('12 for 12 slots').first().waitFor();
  await page.goto(`${origin}/#/mount`);
  await page.getByRole('radio', { name: 'Several prints on one lens sheet' }).check();
  await page.getByRole('radio', { name: 'Several prints', exact: true }).check();
  await setFields(page, {
    'Print width': '2 in',
    'Print height': '2.5 in',
    'Lens across the ribs': '24 in',
    'Lens along the ribs': '36 in',
  });
  await page.waitForTimeout(5000);
  const idle = browserBytes(profile);
  const watch = watchPeak(profile);
  const startedAt = performance.now();
  await page.getByRole('button', { name: 'Weave several prints' }).click();
  const link = page.getByRole('link', { name: 'Save several prints' });
  await link.waitFor({ timeout: MOST_MS });
  const seconds = (performance.now() - startedAt) / 1000;
  const peak = watch.stop();
  const download = page.waitForEvent('download', { timeout: MOST_MS });
  await link.click();
  const path = join(work, 'gang.png');
  await (await download).saveAs(path);
  const { width, height } = await sharp(path, { limitInputPixels: false }).metadata();
  if (width !== 24 * 720 || height !== 36 * 720) throw new Error(`${width} × ${height} dots`);
  console.log(
    `several, 24 × 36 in                ${width} × ${height} dots, ${megabytes(statSync(path).size)}`,
  );
  console.log(
    `  press to finished file        ${seconds.toFixed(1)} s, ${((width * height) / 1e6 / seconds).toFixed(0)} megadots a second`,
  );
  console.log(`  peak above idle               ${megabytes(peak - idle)} (aim: under 600 MB)`);
  await close();
} finally {
  rmSync(work, { recursive: true, force: true });
}
