// @ts-check
/**
 * The everyday sheet: 8 × 10 in at 720 dpi, 60 LPI, 12 slots, from 12 frames of 1200 × 1500.
 *
 * Reference, in the same run on the same frames: the obvious script (NumPy and Pillow as Debian
 * packages them). Aims: no more than a tenth of its time from pressing Weave sheet to the finished
 * file; a file no larger than libvips makes of the same dots at level 6 with adaptive filters; no
 * task of the page over 50 ms while weaving.
 */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, statSync } from 'node:fs';
import { cpus, tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { giveUp } from '../tools/house.mjs';
import { makeFrames } from './shared/frames.mjs';
import { openStudio, saveSheet, setFields, setFrames, weave } from './shared/studio.mjs';

const PYTHON = '/usr/bin/python3';
const ROUNDS = 3;
// Woven pitch of the job below: p (1 + g₀ / D), docs/optics.md relation 2, g₀ traced 5.4 % below t / n.
const VIEWING_PITCH_MM = (25.4 / 60) * (1 + (0.946 * 0.84) / 1.5685 / 400);

try {
  execFileSync(PYTHON, ['-c', 'import numpy, PIL'], { stdio: 'ignore' });
} catch {
  giveUp(
    'The reference script needs Debian’s python3-numpy and python3-pil: apt-get install them.',
  );
}

const work = mkdtempSync(join(tmpdir(), 'tiltloom-sheet-'));
const median = (/** @type {number[]} */ values) =>
  [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? NaN;
const megabytes = (/** @type {number} */ bytes) => `${(bytes / 1e6).toFixed(1)} MB`;

try {
  const frames = await makeFrames({
    folder: join(work, 'frames'),
    count: 12,
    width: 1200,
    height: 1500,
  });

  const referencePath = join(work, 'reference.png');
  const reference = execFileSync(
    PYTHON,
    [
      new URL('reference/weave.py', import.meta.url).pathname,
      referencePath,
      '5760',
      '7200',
      '720',
      String(VIEWING_PITCH_MM),
      ...frames,
    ],
    { encoding: 'utf8' },
  ).trim();
  const referenceSeconds = Number(reference.split(' ')[0]);

  const studio = await openStudio();
  const { page } = studio;
  await setFields(page, {
    'Lens pitch': '60 lpi',
    'Lens thickness': '0.84 mm',
    'Refractive index': '1.5685',
    'Dots across': '720',
    'Dots along': '720',
    'Print width': '8 in',
    'Print height': '10 in',
    'Viewing distance': '400 mm',
    'View slots': '12',
  });
  const runs = [];
  const atOnce = [];
  for (let round = 0; round < ROUNDS; round += 1) {
    await setFrames(page, frames);
    // Pressed before the frames are prepared: their decoding and reducing is in this time too.
    atOnce.push(await weave(page));
    runs.push(await weave(page));
  }
  const path = join(work, 'sheet.png');
  await saveSheet(page, path);
  await studio.close();

  const bytes = statSync(path).size;
  const vips = await sharp(path, { limitInputPixels: false })
    .png({ compressionLevel: 6, adaptiveFiltering: true })
    .toBuffer();
  const seconds = median(runs.map((run) => run.seconds));
  const listed = (/** @type {{ seconds: number }[]} */ of) =>
    of.map((run) => run.seconds.toFixed(2)).join(', ');
  const longest = Math.max(0, ...[...runs, ...atOnce].flatMap((run) => run.longTasksMs));
  console.log(`machine                         ${cpus().length} cores, ${cpus()[0]?.model}`);
  console.log(
    `reference script                ${referenceSeconds.toFixed(2)} s, ${megabytes(statSync(referencePath).size)}`,
  );
  console.log(
    `studio, press to finished file  ${seconds.toFixed(2)} s (${listed(runs)}), ${megabytes(bytes)}`,
  );
  console.log(
    `  pressed as the frames arrive  ${median(atOnce.map((run) => run.seconds)).toFixed(2)} s (${listed(atOnce)})`,
  );
  console.log(
    `ratio                           ${(seconds / referenceSeconds).toFixed(3)} (aim: 0.1 or less)`,
  );
  console.log(`libvips, level 6, adaptive      ${megabytes(vips.length)} (aim: ours no larger)`);
  console.log(
    `longest task of the page        ${longest > 0 ? `${longest} ms` : 'under 50 ms'} (aim: 50 ms or less)`,
  );
} finally {
  rmSync(work, { recursive: true, force: true });
}
