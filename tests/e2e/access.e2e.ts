/**
 * What must hold on every bench alike: axe finds nothing by day or by night; nothing is wider than a phone or than
 * a screen at 200 %, nothing is cut off, too small to hit (WCAG 2.2, 1.4.4, 1.4.10, 2.5.8) or moves by
 * itself where less motion is asked for; and the proof turns under a finger.
 */
import type { Page } from 'playwright/test';
import { axeFaults } from './support/axe.ts';
import { benchNames, openStudio, openBench } from './support/benches.ts';
import { expect, test, testApart } from './support/kept-demo.ts';

test('axe finds nothing on any bench by day or by night @wider', async ({ page }) => {
  await openStudio(page);
  const faults: string[] = [];
  for (const name of benchNames) {
    await openBench(page, name);
    for (const fault of await axeFaults(page, 'light')) faults.push(`${name}: ${fault}`);
    for (const fault of await axeFaults(page, 'dark', 'colours')) faults.push(`${name}: ${fault}`);
  }
  expect(faults).toEqual([]);
});

/** What does not fit, cannot be hit or takes its time to move, a line each. */
const misfits = (page: Page) =>
  page.evaluate(() => {
    const found: string[] = [];
    const tell = (what: string, one: Element) =>
      found.push(`${what}: ${one.outerHTML.slice(0, 120)}`);
    if (document.documentElement.scrollWidth > innerWidth)
      found.push(`the page is ${document.documentElement.scrollWidth} wide`);
    const ofText = (one: Element) => one.textContent.trim() !== '' && !one.matches('.unseen');
    for (const one of document.querySelectorAll<HTMLElement>('body *')) {
      if (!one.checkVisibility()) continue;
      const style = getComputedStyle(one);
      const cuts = (overflow: string) =>
        ['hidden', 'clip'].includes(overflow) && style.clipPath === 'none' && ofText(one);
      if (
        (cuts(style.overflowX) && one.scrollWidth > one.clientWidth + 1) ||
        (cuts(style.overflowY) && one.scrollHeight > one.clientHeight + 1)
      )
        tell('cut', one);
      // Long enough to be seen: a twentieth of a second.
      for (const times of [style.transitionDuration, style.animationDuration])
        if (times.split(', ').some((time) => Number.parseFloat(time) > 0.05)) tell('moves', one);
      const inText = style.display === 'inline';
      if (inText || !one.matches('a, button, input, select, summary, [role=slider]')) continue;
      const target = one.closest('label') ?? one;
      const { width, height } = target.getBoundingClientRect();
      const unseen = one.matches('.unseen');
      if (!unseen && (width < 24 || height < 24)) tell(`${width} × ${height}`, one);
    }
    return found;
  });

const sizes = {
  'a phone': { width: 390, height: 844 },
  // 1440 × 900 at 200 %, less the bar that scrolls.
  'a screen at 200 %': { width: 705, height: 450 },
};

testApart.describe('by hand', () => {
  testApart.use({
    viewport: sizes['a phone'],
    hasTouch: true,
    isMobile: true,
    contextOptions: { reducedMotion: 'reduce' },
  });

  testApart(
    'every bench fits a phone and a screen at 200 %, and nothing moves that was asked not to @wider',
    async ({ page }) => {
      await openStudio(page);
      const faults: string[] = [];
      for (const name of benchNames) {
        await page.setViewportSize(sizes['a phone']);
        await openBench(page, name);
        for (const [screen, size] of Object.entries(sizes)) {
          await page.setViewportSize(size);
          for (const fault of await misfits(page)) faults.push(`${name} on ${screen}: ${fault}`);
        }
      }
      expect(faults).toEqual([]);
    },
  );

  testApart(
    'a finger turns the proof while the page stays, and nothing sways @wider',
    async ({ page }) => {
      await openStudio(page);
      await expect(page.getByText(/Preparing frames/)).toBeHidden();
      const proof = page.getByTestId('tilt-proof');
      const tilt = page.getByLabel('Tilt', { exact: true });
      await expect(tilt).toHaveValue('0');
      await page.getByRole('button', { name: 'Sway' }).tap({ force: true });
      await proof.scrollIntoViewIfNeeded();
      const box = (await proof.boundingBox()) ?? { x: 0, y: 0, width: 0, height: 0 };
      const finger = await page.context().newCDPSession(page);
      const drag = async (across: number, down: number) => {
        const from = { x: box.x + box.width / 2, y: box.y + box.height / 2 };
        await finger.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints: [from] });
        for (let step = 1; step <= 4; step += 1)
          await finger.send('Input.dispatchTouchEvent', {
            type: 'touchMove',
            touchPoints: [{ x: from.x + (across * step) / 4, y: from.y + (down * step) / 4 }],
          });
        await finger.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] });
      };
      const scrolled = () => page.evaluate(() => scrollY);
      const before = await scrolled();
      await expect(tilt).toHaveValue('0');
      await drag(box.width / 4, 12);
      // A quarter of the picture is half the way from straight ahead to the zone's end.
      await expect.poll(async () => Number(await tilt.inputValue())).toBeCloseTo(0.5, 1);
      expect(await scrolled()).toBe(before);
      // Along the ribs a finger scrolls as anywhere else.
      await drag(4, -150);
      await expect.poll(scrolled).toBeGreaterThan(before + 50);
    },
  );
});
