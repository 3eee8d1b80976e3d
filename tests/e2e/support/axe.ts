import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright/test';

/** All rules, or those alone that look at colours: the others find by night what they found by day. */
type Rules = 'all' | 'colours';

/** What axe finds on the page, a line each, once colours have settled: halfway between day and night is neither's. */
export const axeFaults = async (
  page: Page,
  colorScheme: 'light' | 'dark' = 'light',
  rules: Rules = 'all',
): Promise<string[]> => {
  await page.emulateMedia({ colorScheme, reducedMotion: 'reduce' });
  await page.evaluate(() =>
    Promise.allSettled(document.getAnimations().map((one) => one.finished)),
  );
  // What passes is not asked for, and there are no frames to look into: both take longer than the rules.
  const builder = new AxeBuilder({ page }).options({ resultTypes: ['violations'] }).setLegacyMode();
  if (rules === 'colours') builder.withRules(['color-contrast', 'link-in-text-block']);
  const { violations } = await builder.analyze();
  return violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html ?? ''}`);
};
