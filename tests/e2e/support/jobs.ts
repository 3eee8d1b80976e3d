/** The list of jobs, and what is kept of the open one, as a person and the disk see them. */
import type { Page } from 'playwright/test';
import { expect } from './kept-demo.ts';
import { keptStates } from './page.ts';

export const opened = async (page: Page, address = '#/frames') => {
  await page.goto(address);
  await expect(page.getByText('12 for 12 slots')).toBeVisible();
  await kept(page);
};

/** Until what is on the page is on the disk. */
export const kept = async (page: Page, count = 1) =>
  expect.poll(async () => (await keptStates(page)).length).toBeGreaterThanOrEqual(count);

export const jobs = async (page: Page) => {
  await page.getByRole('button', { name: 'Jobs', exact: true }).click();
  return page.getByRole('dialog', { name: 'Jobs' });
};

export const addButton = (page: Page) => page.getByRole('main').locator('input[type=file]').first();
