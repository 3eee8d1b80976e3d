// @ts-check
/**
 * Broken pictures of every format added on the Frames bench of the built studio, batch after batch, so that
 * the browser's own decoders, the workers and the page have their part: each file must end as a frame
 * or be named, and the good picture in every batch must stay. Prints rows of Markdown.
 *
 *   CASES=40 npm run bench -- lost-arrivals     more a seed file (12 are the default)
 */
import { openModules } from './shared/modules.mjs';
import { pngSuite } from './shared/png-suite.mjs';
import { openStudio } from './shared/studio.mjs';

const CASES = Number(process.env['CASES'] ?? 12);
const SEED = Number(process.env['SEED'] ?? 1);
const MOST_MS = 60_000;

const { load, close } = await openModules();
const studio = await openStudio();
try {
  const { seeds } = await load('/tests/contract/fuzz/seeds.ts');
  const { mutate } = await load('/tests/contract/fuzz/mutate.ts');
  const { randomOf } = await load('/tests/contract/fuzz/random.ts');
  const { page } = studio;
  const rows = page.getByRole('grid', { name: 'Frames in order' }).getByRole('row');
  await rows.nth(11).waitFor({ timeout: MOST_MS });

  /** Names of the frames that are there. */
  const framesThere = async () => {
    const labels = await rows.evaluateAll((all) =>
      all.map((row) => row.getAttribute('aria-label') ?? ''),
    );
    return labels.map((label) => label.replace(/^\d+, /, ''));
  };

  /** @typedef {{ reader: string, name: string, bytes: Uint8Array }} Seed */
  const files = /** @type {Seed[]} */ (await seeds());
  const good = /** @type {Seed} */ (files.find(({ name }) => name === 'plain.png'));
  const random = randomOf(SEED);
  console.log('| what | tried | a picture | refused by name | lost | slowest batch, s |');
  console.log('| --- | ---: | ---: | ---: | ---: | ---: |');
  let lostInAll = 0;
  for (const reader of new Set(files.map((one) => one.reader))) {
    const sums = { tried: 0, pictures: 0, named: 0, lost: 0, ms: 0 };
    for (const [which, { name, bytes }] of files.filter((one) => one.reader === reader).entries()) {
      const batch = Array.from({ length: CASES }, (_, n) => ({
        name: `b${which}-${n}-${name}`,
        mimeType: '',
        buffer: Buffer.from(mutate(bytes, random, random.pick(files).bytes)),
      }));
      const own = {
        name: `good-${which}-${name}.png`,
        mimeType: '',
        buffer: Buffer.from(good.bytes),
      };
      await page.getByRole('button', { name: 'Remove all' }).click();
      const began = performance.now();
      await page.locator('input[aria-label="Add frames"]').setInputFiles([...batch, own]);
      const wanted = new Set([...batch, own].map((one) => one.name));
      let left = [...wanted];
      while (left.length > 0 && performance.now() - began < MOST_MS) {
        await page.waitForTimeout(100);
        const text = await page.locator('main').innerText();
        const frames = await framesThere();
        left = left.filter((one) => !frames.includes(one) && !text.includes(one));
      }
      const frames = await framesThere();
      sums.ms = Math.max(sums.ms, performance.now() - began);
      sums.tried += batch.length;
      const pictures = batch.filter((one) => frames.includes(one.name)).length;
      sums.pictures += pictures;
      sums.named += batch.length - pictures - left.length;
      sums.lost += left.length + (frames.includes(own.name) ? 0 : 1);
      for (const one of left) console.log(`  neither frame nor named: ${one}`);
      const away = page.getByRole('button', { name: 'Dismiss all' });
      if (await away.isVisible()) await away.click();
    }
    lostInAll += sums.lost;
    console.log(
      `| ${reader} | ${sums.tried} | ${sums.pictures} | ${sums.named} | ${sums.lost} | ${(sums.ms / 1000).toFixed(1)} |`,
    );
  }
  const suite = pngSuite().map(({ name, bytes }) => ({
    name,
    mimeType: '',
    buffer: Buffer.from(bytes),
  }));
  if (suite.length > 0) {
    await page.getByRole('button', { name: 'Remove all' }).click();
    const began = performance.now();
    await page.locator('input[aria-label="Add frames"]').setInputFiles(suite);
    await rows
      .nth(suite.length - 1)
      .waitFor({ timeout: MOST_MS })
      .catch(() => undefined);
    const frames = await framesThere();
    // All of them are well formed: each must be a frame.
    const missing = suite.filter(({ name }) => !frames.includes(name));
    lostInAll += missing.length;
    const seconds = ((performance.now() - began) / 1000).toFixed(1);
    console.log(
      `| PngSuite, all well formed | ${suite.length} | ${suite.length - missing.length} | 0 | ${missing.length} | ${seconds} |`,
    );
    for (const { name } of missing) console.log(`  no frame: ${name}`);
  }
  console.log(`\n${lostInAll === 0 ? 'Nothing was lost.' : `${lostInAll} were lost.`}`);
  if (lostInAll > 0) process.exitCode = 1;
} finally {
  await studio.close();
  await close();
}
