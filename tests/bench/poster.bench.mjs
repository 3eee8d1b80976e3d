// @ts-check
/**
 * The poster: 24 × 36 in at 720 dpi, 450 megadots, in each file type, and one twice as tall.
 *
 * Memory of the whole browser (all processes, shared pages counted once) while weaving, above what
 * it held idle with the frames on the bench. Aim: under 600 MB, however tall the sheet. For
 * comparison the uncompressed sheet: what a program must hold that weaves it as one picture.
 */
import { mkdtempSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { makeFrames } from './shared/frames.mjs';
import { browserBytes, watchPeak } from './shared/memory.mjs';
import { openStudio, saveSheet, setFields, setFrames, weave } from './shared/studio.mjs';

const work = mkdtempSync(join(tmpdir(), 'tiltloom-poster-'));
const megabytes = (/** @type {number} */ bytes) => `${(bytes / 1e6).toFixed(0)} MB`;
const settle = () => new Promise((resolve) => setTimeout(resolve, 3000));

try {
  const frames = await makeFrames({
    folder: join(work, 'frames'),
    count: 12,
    width: 2400,
    height: 3600,
  });
  const studio = await openStudio();
  const { page, profile } = studio;
  await settle();
  const idle = browserBytes(profile);
  console.log(`idle, demo open                 ${megabytes(idle)}`);
  await setFields(page, { 'Print width': '24 in', 'Print height': '36 in' });
  await setFrames(page, frames);
  for (const [type, heightIn] of /** @type {const} */ ([
    ['PNG', 36],
    ['TIFF', 36],
    ['PDF', 36],
    ['PNG', 72],
  ])) {
    await page.goto(`${new URL(page.url()).origin}/#/weave`);
    await page.getByRole('radio', { name: type, exact: true }).check();
    await setFields(page, { 'Print height': `${heightIn} in` });
    const watch = watchPeak(profile);
    const { seconds, longTasksMs } = await weave(page);
    const peak = watch.stop();
    const path = join(work, 'poster');
    await saveSheet(page, path);
    const [width, height] = [24 * 720, heightIn * 720];
    if (type !== 'PDF') {
      const facts = await sharp(path, { limitInputPixels: false }).metadata();
      if (facts.width !== width || facts.height !== height || facts.density !== 720)
        throw new Error(`${type}: ${facts.width} × ${facts.height} at ${facts.density}`);
    }
    const raw = width * height * 3;
    console.log(
      `${type}, 24 × ${heightIn} in`.padEnd(32) +
        `${width} × ${height} dots, ${megabytes(statSync(path).size)}`,
    );
    console.log(
      `  press to finished file        ${seconds.toFixed(1)} s, ${(raw / 3e6 / seconds).toFixed(0)} megadots a second`,
    );
    console.log(
      `  peak above idle               ${megabytes(peak - idle)} (aim: under 600 MB; the sheet itself is ${megabytes(raw)})`,
    );
    console.log(`  longest task of the page      ${Math.max(0, ...longTasksMs) || 'under 50'} ms`);
  }
  await studio.close();
} finally {
  rmSync(work, { recursive: true, force: true });
}
