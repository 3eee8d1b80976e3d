/**
 * Where most browser tests begin: the demo is kept already, as a first visit left it, and opens at once.
 * A test of the first visit itself takes `test` of any-visit.ts and begins with an empty profile.
 */
import { readFileSync } from 'node:fs';
import type { BrowserContext, Page } from 'playwright/test';
import { slowPages, test as base } from './any-visit.ts';
import { at } from '../../tools/house.mjs';
import type { BrowserStore } from './browser-store.ts';
import { storeLayer } from './browser-store.ts';

/** Written by first-visit.setup.ts, before any other test. */
export const keptDemoFile = at('test-results/kept-demo.json');

type LayStore = ReturnType<typeof storeLayer>;

const withKeptDemo = base.extend<object, { layKeptDemo: LayStore }>({
  layKeptDemo: [
    ({}, use, { project }) => {
      const store = JSON.parse(readFileSync(keptDemoFile, 'utf8')) as BrowserStore;
      return use(storeLayer(store, project.use.baseURL ?? ''));
    },
    { scope: 'worker' },
  ],
});

/** For other screens and devices, and for what is set on a context: a context of its own. */
export const testApart = withKeptDemo.extend({
  context: async ({ context, layKeptDemo }, use) => {
    const page = await layKeptDemo(context);
    await page.close();
    await use(context);
  },
});

/** One context a worker, emptied between tests: the browser need not compile the studio for each. */
export const test = withKeptDemo.extend<{ laid: Page }, { shared: BrowserContext }>({
  shared: [
    async ({ browser }, use, { project }) => {
      const { baseURL = '', viewport = null, serviceWorkers = 'block' } = project.use;
      const context = await browser.newContext({ baseURL, viewport, serviceWorkers });
      slowPages(context);
      await use(context);
      await context.close();
    },
    { scope: 'worker' },
  ],
  laid: async ({ shared, layKeptDemo }, use) => {
    await use(await layKeptDemo(shared));
    for (const page of shared.pages()) await page.close();
  },
  context: ({ shared, laid: _laid }, use) => use(shared),
  // The page that laid the store in: another would be made for nothing.
  page: ({ laid }, use) => use(laid),
});

export { expect } from './any-visit.ts';
