/**
 * The first visit that most other tests go on from. Its demo has the same frames at a fifth of their size:
 * what is not about their pixels is then quick, and what is begins with a first visit of its own. It is kept
 * as a job of the person's own: a test may change it, and no copy is made of it.
 */
import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { expect, test } from './any-visit.ts';
import { copyStore } from './browser-store.ts';
import { keptDemoFile } from './kept-demo.ts';
import { filesIn, keptStates } from './page.ts';
import { shrinkDemo } from './shrunk-demo.ts';

test('a first visit lays the demo in and keeps it', async ({ page }) => {
  await shrinkDemo(page, 120);
  await page.goto('./#/weave');
  await expect(page.getByText('12 for 12 slots')).toBeVisible();
  // Twelve frames, each with its thumbnail, and the job.
  await expect.poll(() => filesIn(page, 'frames')).toBe(24);
  await expect.poll(async () => (await keptStates(page)).length).toBe(1);
  mkdirSync(dirname(keptDemoFile), { recursive: true });
  const asOwn = (key: string, value: unknown) => (key === 'demo' ? undefined : value);
  writeFileSync(keptDemoFile, JSON.stringify(await copyStore(page), asOwn));
});
