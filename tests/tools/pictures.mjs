// @ts-check
/**
 * `npm run pictures`: the pictures of README and docs/guide.md, made anew from the built studio and its demo. Run it
 * when a bench looks different; look at what it made before it is committed.
 */
import { mkdirSync } from 'node:fs';
import sharp from 'sharp';
import { openStudio } from '../bench/shared/studio.mjs';
import { at, ensureInstalled } from './house.mjs';

/** Of a window of 1440 × 900, as most people have it; narrower in the docs, where text stays readable. */
const WIDTH_PX = 1100;

/** @typedef {import('playwright').Page} Page */

/** @type {readonly { name: string, bench: string, prepare?: (page: Page) => Promise<unknown> }[]} */
const pictures = [
  { name: 'frames', bench: 'frames' },
  { name: 'plan', bench: 'plan' },
  { name: 'calibrate', bench: 'calibrate' },
  {
    name: 'weave',
    bench: 'weave',
    prepare: (page) => page.getByRole('slider', { name: 'Tilt' }).press('ArrowRight'),
  },
  { name: 'mount', bench: 'mount' },
  { name: 'mend', bench: 'mend' },
];

await ensureInstalled();
const folder = at('docs/pictures');
mkdirSync(folder, { recursive: true });
const studio = await openStudio();
try {
  const { page } = studio;
  await page.setViewportSize({ width: 1440, height: 900 });
  await page.emulateMedia({ colorScheme: 'light', reducedMotion: 'reduce' });
  await page.getByText('12 for 12 slots').first().waitFor();
  for (const { name, bench, prepare } of pictures) {
    await page.goto(`${new URL(page.url()).origin}/#/${bench}`);
    await page
      .locator('main h1')
      .filter({ hasText: new RegExp(`^${bench}$`, 'i') })
      .waitFor();
    await page.getByRole('heading', { level: 2 }).first().waitFor();
    // What is drawn, traced or loaded late.
    await page.waitForLoadState('networkidle');
    await page.waitForTimeout(3000);
    await prepare?.(page);
    await page.waitForTimeout(500);
    const shot = await page.screenshot();
    const file = `${folder}/${name}.webp`;
    const { size } = await sharp(shot).resize(WIDTH_PX).webp({ quality: 82 }).toFile(file);
    console.log(`docs/pictures/${name}.webp  ${Math.round(size / 1024)} kB`);
  }
} finally {
  await studio.close();
}
