/** Every bench of the studio with its parts unfolded and something in them, for what must hold on all. */
import type { Page } from 'playwright/test';
import { expect } from 'playwright/test';
import { showPart, type } from './page.ts';

const count = async (page: Page) => {
  await page.getByRole('radio', { name: /^Bands that slant/ }).check();
  await page.getByRole('button', { name: /^Pitch a little too fine/ }).click();
  await type(page, 'Bands, counted left to right', '1.5');
};

/** What a bench shows only once something was chosen on it. */
const furnish: Readonly<Record<string, (page: Page) => Promise<unknown>>> = {
  plan: (page) => page.getByRole('button', { name: 'Add a thing' }).click(),
  shoot: (page) =>
    page.getByRole('combobox', { name: 'Frames are made' }).selectOption({ label: 'Turntable' }),
  calibrate: (page) => page.getByRole('radio', { name: 'By a lamp behind it' }).check(),
  // Of the last none is drawn on a phone before it is scrolled to.
  frames: (page) => expect(page.getByRole('row', { name: /glasshouse_01/ })).toBeVisible(),
  weave: (page) => expect(page.getByTestId('tilt-proof')).toBeVisible(),
  mount: async (page) => {
    await page.getByRole('radio', { name: 'A whole page' }).check();
    await page.getByRole('radio', { name: 'Several prints', exact: true }).check();
    await type(page, 'Print width', '60 mm');
    await type(page, 'Print height', '50 mm');
    await type(page, 'Lens across the ribs', '200 mm');
    await type(page, 'Lens along the ribs', '160 mm');
    await expect(page.getByRole('img', { name: /Lens sheet with \d prints/ })).toBeVisible();
    await page.getByRole('radio', { name: 'Several, side by side' }).check();
    await type(page, 'Lens sheet across the ribs', '50 mm');
    await expect(page.getByRole('img', { name: /2 tiles to scale/ })).toBeVisible();
  },
  workshop: (page) => page.getByRole('button', { name: 'Add a lens' }).click(),
  // A trial in the log, and the next print looked at.
  mend: async (page) => {
    await count(page);
    await page.getByLabel('Head goes right: the bands go').selectOption({ label: 'The same way' });
    await page.getByRole('button', { name: 'Change the job and log this trial' }).click();
    await expect(page.getByRole('heading', { name: /^Trial 1/ })).toBeVisible();
    await count(page);
  },
};

export const benchNames = Object.keys(furnish);

/** The job sheet unfolded, as on a wide screen. */
export const openStudio = async (page: Page) => {
  await page.goto('./#/weave');
  await expect(page.getByText('12 for 12 slots')).toBeAttached();
  const unfold = page.getByRole('button', { name: 'Unfold' });
  if (await unfold.isVisible()) await unfold.click();
};

export const openBench = async (page: Page, name: string) => {
  await page.goto(`./#/${name}`);
  await expect(page.getByRole('heading', { level: 1 })).toHaveText(new RegExp(name, 'i'));
  await expect(page.locator('main h2').first()).toBeVisible();
  if (name !== 'workshop') await showPart(page, 'Everything');
  await furnish[name]?.(page);
  await page.evaluate(() => {
    for (const fold of document.querySelectorAll('details')) fold.open = true;
  });
};
