import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright/test';

/** What axe finds on the page, a line each, once colours have settled: halfway between day and night is neither's. */
export const axeFaults = async (
  page: Page,
  colorScheme: 'light' | 'dark' = 'light',
): Promise<string[]> => {
  await page.emulateMedia({ colorScheme, reducedMotion: 'reduce' });
  await page.evaluate(() =>
    Promise.allSettled(document.getAnimations().map((one) => one.finished)),
  );
  const { violations } = await new AxeBuilder({ page }).analyze();
  return violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html ?? ''}`);
};
