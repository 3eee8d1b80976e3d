/** What stays in view: findings while a bench scrolls, the job sheet's figures, and that its scroll is seen. */
import type { Page } from 'playwright/test';
import sharp from 'sharp';
import { expect, test } from './support/kept-demo.ts';
import { field, showPart, type } from './support/page.ts';

const far = (page: Page) => page.evaluate(() => scrollTo(0, 700));
const sheet = (page: Page) => page.getByRole('complementary', { name: 'Job sheet' });

test('a finding stays in view while the bench scrolls, beside it or at its foot', async ({
  page,
}) => {
  await page.goto('#/plan');
  await showPart(page, 'Everything');
  await expect(page.getByRole('heading', { name: 'The pitch is only nominal' })).toBeVisible();
  for (const width of [1440, 900, 390]) {
    await page.setViewportSize({ width, height: 844 });
    await far(page);
    const seen =
      width > 1312
        ? page.getByRole('heading', { name: 'The pitch is only nominal' })
        : // The shrunk frames are the worst of it.
          page.getByRole('button', {
            name: '2 findings below Caution: Frames coarser than the lens',
          });
    await expect(seen).toBeInViewport();
  }
  await page.getByRole('button', { name: /finding.* below/ }).click();
  await expect(page.getByRole('heading', { name: 'Findings' })).toBeFocused();
  await expect(page.getByRole('heading', { name: 'The pitch is only nominal' })).toBeInViewport();
});

test('the job sheet says that it scrolls, and an error leaves its figures in place @wider', async ({
  page,
}) => {
  await page.setViewportSize({ width: 1440, height: 700 });
  await page.goto('#/weave');
  await expect(field(page, 'Lens pitch')).toBeVisible();
  await expect(sheet(page).getByText('More below')).toBeVisible();
  await sheet(page).getByText('Megadots').scrollIntoViewIfNeeded();
  await sheet(page)
    .getByText(/for 12 slots/)
    .scrollIntoViewIfNeeded();
  await expect(sheet(page).getByText('More below')).toHaveCount(0);
  await page.setViewportSize({ width: 1440, height: 1080 });
  const figure = sheet(page).getByText('Woven pitch', { exact: true });
  await expect(figure).toBeInViewport();
  const before = await figure.boundingBox();
  await type(page, 'Lens thickness', '3 furlongs and a half');
  await expect(field(page, 'Lens thickness')).toHaveAttribute('aria-invalid', 'true');
  await expect(figure).toBeInViewport();
  const after = await figure.boundingBox();
  // The sheet itself may grow by the lines of the error, as far as the window reaches.
  expect((after?.y ?? 0) - (before?.y ?? 0)).toBeLessThan(60);
});

test('twelve notes on frames lie below each other @wider', async ({ page }) => {
  await page.goto('#/frames');
  const picture = await sharp({
    create: { width: 80, height: 90, channels: 3, background: { r: 20, g: 90, b: 160 } },
  })
    .png()
    .toBuffer();
  await page.getByRole('button', { name: 'Remove all' }).click();
  await page.locator('input[aria-label="Add frames"]').setInputFiles([
    { name: 'lighthouse_1.png', mimeType: 'image/png', buffer: picture },
    ...Array.from({ length: 12 }, (_, at) => ({
      name: `a list of what the glasshouse needs this week, the ${at + 1}th page.txt`,
      mimeType: 'text/plain',
      buffer: Buffer.from('low tide at noon'),
    })),
  ]);
  const lines = page
    .locator('section', { has: page.getByRole('heading', { name: 'Worth knowing' }) })
    .getByRole('listitem');
  await expect(lines).toHaveCount(12);
  const boxes = await lines.evaluateAll((all) =>
    all.map((line) => ({
      top: line.getBoundingClientRect().top,
      bottom: Math.max(...[...line.children].map((child) => child.getBoundingClientRect().bottom)),
    })),
  );
  boxes
    .slice(1)
    .forEach(({ top }, at) => expect(top).toBeGreaterThanOrEqual(boxes[at]?.bottom ?? 0));
  // Said here one by one, so not once more beside it.
  await expect(
    page.getByRole('heading', { name: /files could not be used|notes on the files/ }),
  ).toHaveCount(0);
});
