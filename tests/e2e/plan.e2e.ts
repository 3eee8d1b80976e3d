/** The Plan bench in a real browser, one test a section. */
import type { Page } from 'playwright/test';
import { expect, test } from './support/kept-demo.ts';
import { field, showPart, type } from './support/page.ts';

const opened = async (page: Page) => {
  await page.goto('#/plan');
  await showPart(page, 'Lens');
  await expect(field(page, 'Rib radius')).toBeVisible();
};

test('lens: the eye is dragged and moved by keys, and a typed radius changes the verdict', async ({
  page,
}) => {
  await opened(page);
  const eye = page.getByRole('slider', { name: 'Eye' });
  await eye.scrollIntoViewIfNeeded();
  await expect(eye).toHaveAttribute('aria-valuetext', /^straight ahead/);
  const box = (await eye.boundingBox())!;
  await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
  await page.mouse.down();
  await page.mouse.move(box.x + box.width / 2 + 30, box.y + box.height / 2, { steps: 4 });
  await page.mouse.up();
  await expect(eye).toHaveAttribute('aria-valuetext', /° right, sees view slot \d+ of 12/);
  await eye.press('Home');
  await expect(eye).toHaveAttribute('aria-valuetext', /° left/);

  const reasons = page.getByRole('list', { name: 'Why' });
  const before = await reasons.innerText();
  await type(page, 'Rib radius', '0.5 mm');
  await expect(reasons).not.toHaveText(before);
  await expect(reasons).toContainText('a soft lens');
});
