// @ts-check
/**
 * What a few files cost the built studio: the memory of the whole browser at its highest, and the time
 * until each file is a frame or is named. Each case has a browser of its own.
 */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { browserBytes, watchPeak } from './shared/memory.mjs';
import { openModules } from './shared/modules.mjs';
import { randomOf } from './shared/random.mjs';
import { openStudio } from './shared/studio.mjs';

const MOST_MS = 600_000;

const { load, close } = await openModules();
const { lyingJpeg } = await load('/tests/contract/fuzz/hostile.ts');
const folder = mkdtempSync(join(tmpdir(), 'tiltloom-memory-'));

/** A PNG of 8 bits, whole; `shade` tells one from another. */
const widePng = (
  /** @type {number} */ widthPx,
  /** @type {number} */ heightPx,
  /** @type {number} */ shade,
) => {
  const random = randomOf(shade + 1);
  const small = Uint8Array.from({ length: 200 * 100 * 3 }, () => 256 * random());
  return sharp(small, { raw: { width: 200, height: 100, channels: 3 } })
    .resize(widthPx, heightPx, { kernel: 'linear', fit: 'fill' })
    .png({ compressionLevel: 2 })
    .toBuffer();
};

/**
 * @param {string} what
 * @param {readonly (readonly [name: string, bytes: Uint8Array])[]} files
 */
const tell = async (what, files) => {
  const paths = files.map(([name, bytes]) => {
    const path = join(folder, name);
    writeFileSync(path, bytes);
    return path;
  });
  const studio = await openStudio();
  try {
    const { page, profile } = studio;
    const rows = page.getByRole('grid', { name: 'Frames in order' }).getByRole('row');
    await rows.nth(11).waitFor();
    await page.getByRole('button', { name: 'Remove all' }).click();
    const before = browserBytes(profile);
    const began = performance.now();
    const peak = watchPeak(profile, 100);
    await page.locator('input[aria-label="Add frames"]').setInputFiles(paths);
    const named = async () => {
      const text = await page.locator('main').innerText();
      const labels = await rows.evaluateAll((all) =>
        all.map((row) => row.getAttribute('aria-label') ?? '').join('\n'),
      );
      return files.filter(([name]) => labels.includes(name) || text.includes(name)).length;
    };
    while ((await named()) < files.length && performance.now() - began < MOST_MS)
      await page.waitForTimeout(200);
    const seconds = (performance.now() - began) / 1000;
    const frames = await rows.count();
    const megabytes = (/** @type {number} */ bytes) => Math.round(bytes / 2 ** 20);
    console.log(
      `| ${what} | ${frames} of ${files.length} | ${megabytes(before)} | ${megabytes(peak.stop())} | ${seconds.toFixed(1)} |`,
    );
  } finally {
    await studio.close();
  }
};

try {
  console.log('| added | became frames | MB before | MB at the highest | s |');
  console.log('| --- | ---: | ---: | ---: | ---: |');
  await tell('a JPEG of 70 kB that claims 14 000 × 14 000', [
    ['lying.jpg', await lyingJpeg(14000, 14000)],
  ]);
  const wide = await Promise.all([0, 1, 2, 3].map((shade) => widePng(20000, 10000, shade)));
  await tell(
    'four PNGs of 20 000 × 10 000',
    wide.map((bytes, i) => [`wide_${i + 1}.png`, bytes]),
  );
  const many = await Promise.all(
    Array.from({ length: 24 }, (_, shade) => widePng(3000, 2000, shade)),
  );
  await tell(
    '24 PNGs of 3000 × 2000',
    many.map((bytes, i) => [`small_${String(i + 1).padStart(2, '0')}.png`, bytes]),
  );
} finally {
  rmSync(folder, { recursive: true, force: true });
  await close();
}
