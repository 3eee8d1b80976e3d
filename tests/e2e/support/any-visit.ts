/**
 * What every browser test begins from: Playwright's own test, with an empty profile.
 *
 *   SLOWED=2 npm test -- e2e     the processor of each page as many times slower, as on an old or busy machine
 */
import type { BrowserContext } from 'playwright/test';
import { test as base } from 'playwright/test';

const SLOWED = Number(process.env['SLOWED'] ?? 1);

/** Its pages from now on, where a slower processor is asked for. Workers keep their own speed. */
export const slowPages = (context: BrowserContext): void => {
  if (SLOWED <= 1) return;
  context.on('page', (page) => {
    void context
      .newCDPSession(page)
      .then((devtools) => devtools.send('Emulation.setCPUThrottlingRate', { rate: SLOWED }))
      // A page that has gone by then.
      .catch(() => undefined);
  });
};

export const test = base.extend({
  context: async ({ context }, use) => {
    slowPages(context);
    await use(context);
  },
});

export { expect } from 'playwright/test';
