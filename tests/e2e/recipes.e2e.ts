/** A recipe in the built studio: a flip of two pictures, seen tilted, woven, saved, and undone. */
import type { Page } from 'playwright/test';
import sharp from 'sharp';
import { axeFaults } from './support/axe.ts';
import { expect, test } from './support/kept-demo.ts';
import { saved, type } from './support/page.ts';
import { layInSmall, middleOfProof } from './support/small-job.ts';

const flat = (name: string, r: number, g: number, b: number) =>
  sharp({ create: { width: 200, height: 250, channels: 3, background: { r, g, b } } })
    .png()
    .toBuffer()
    .then((buffer) => ({ name, mimeType: '', buffer }));

const strip = (page: Page) => page.getByRole('radiogroup', { name: 'View slots in order' });

test('a flip of two pictures: set up, tilted, woven with guards of half the light, undone', async ({
  page,
}) => {
  await layInSmall(page, [await flat('day.png', 255, 0, 0), await flat('night.png', 0, 255, 0)]);

  await page.getByRole('radio', { name: 'Flip' }).check();
  await type(page, 'Guard slots', '2');
  const slot = (number: number, shows: string) =>
    strip(page).getByRole('radio', { name: `Slot ${number}: ${shows}`, exact: true });
  await expect(slot(5, 'day.png')).toBeAttached();
  await expect(slot(6, '50 % day.png and 50 % night.png')).toBeAttached();
  await expect(slot(8, 'night.png')).toBeAttached();
  expect(await axeFaults(page)).toEqual([]);

  await page.goto('./#/weave');
  await expect(page.getByText(/Preparing frames/)).toBeHidden();
  const tilt = page.getByLabel('Tilt', { exact: true });
  await tilt.fill('-0.5');
  await expect.poll(() => middleOfProof(page)).toEqual([255, 0, 0]);
  await tilt.fill('0.5');
  await expect.poll(() => middleOfProof(page)).toEqual([0, 255, 0]);
  await tilt.fill('0');
  await expect(tilt).toHaveAttribute(
    'aria-valuetext',
    'straight ahead, between views 6 and 7 of 12',
  );

  // Either picture may lie straight ahead instead of the change.
  const ahead = async (shown: string) => {
    await page.goto('./#/frames');
    await page.getByLabel('Straight ahead', { exact: true }).selectOption(shown);
    await page.goto('./#/weave');
  };
  await ahead('Picture 2');
  await expect.poll(() => middleOfProof(page)).toEqual([0, 255, 0]);
  await ahead('Picture 1');
  await expect.poll(() => middleOfProof(page)).toEqual([255, 0, 0]);
  await page.keyboard.press('Control+z');
  await page.keyboard.press('Control+z');
  await page.goto('./#/weave');
  await expect(tilt).toHaveAttribute('aria-valuetext', /between views 6 and 7/);

  await page.getByRole('radio', { name: 'Crisp' }).check();
  await page.getByRole('button', { name: 'Weave sheet' }).click();
  const { bytes: file } = await saved(page, 'Save sheet');
  const { data } = await sharp(file).raw().toBuffer({ resolveWithObject: true });
  const counts = new Map<string, number>();
  for (let dot = 0; dot < 1440; dot += 1) {
    const key = data.subarray(dot * 3, dot * 3 + 3).join(' ');
    counts.set(key, (counts.get(key) ?? 0) + 1);
  }
  // Half of full light in linear terms is code 188 (IEC 61966-2-1: 187.52), in two slots of twelve.
  expect([...counts.keys()].sort()).toEqual(['0 255 0', '188 188 0', '255 0 0']);
  expect((counts.get('188 188 0') ?? 0) / 1440).toBeCloseTo(2 / 12, 1);
  expect((counts.get('255 0 0') ?? 0) / 1440).toBeCloseTo(5 / 12, 1);

  // Another guard makes the sheet stale; undo makes it fit again.
  await page.goto('./#/frames');
  await page.getByRole('radio', { name: 'Black' }).check();
  await expect(slot(6, 'plain black')).toBeAttached();
  await page.goto('./#/weave');
  await expect(page.getByText('The job has changed since', { exact: true })).toBeVisible();
  await page.keyboard.press('Control+z');
  await expect(page.getByText('The job has changed since', { exact: true })).toBeHidden();
  // Back past the flip: columns, guard slots, recipe.
  for (let step = 0; step < 3; step += 1) await page.keyboard.press('Control+z');
  await page.goto('./#/frames');
  await expect(slot(6, 'day.png')).toBeAttached();
  await expect(page.getByRole('radio', { name: 'Depth', exact: true })).toBeChecked();
});

test('a title with transparency: over every slot in proof and sheet, in linear light @wider', async ({
  page,
}) => {
  // Left third nothing, middle third white, right third white by half.
  const raw = Buffer.alloc(240 * 300 * 4, 255);
  for (let at = 0; at < raw.length / 4; at += 1)
    raw[at * 4 + 3] = [0, 255, 128][Math.floor((at % 240) / 80)] as number;
  const title = await sharp(raw, { raw: { width: 240, height: 300, channels: 4 } })
    .png()
    .toBuffer();
  await layInSmall(page, [
    await flat('a_1.png', 255, 0, 0),
    await flat('a_2.png', 0, 255, 0),
    { name: 'title.png', mimeType: '', buffer: title },
  ]);
  await page.getByLabel('Title over it', { exact: true }).selectOption({ label: '3 · title.png' });
  await expect(page.getByText(/so that it never leaves the print/)).toBeHidden();
  const stands = page.getByLabel('Title stands', { exact: true });
  await stands.fill('-0.5');
  await expect(page.getByText(/mm in front, 0.5 ribs per view/)).toBeVisible();
  await expect(page.getByText(/so that it never leaves the print/)).toBeVisible();
  expect(await axeFaults(page)).toEqual([]);
  await stands.fill('0');

  await page.goto('./#/weave');
  await expect(page.getByText(/Preparing frames/)).toBeHidden();
  await expect.poll(() => middleOfProof(page)).toEqual([255, 255, 255]);
  await page.getByRole('radio', { name: 'Crisp' }).check();
  await page.getByRole('button', { name: 'Weave sheet' }).click();
  const { bytes: file } = await saved(page, 'Save sheet');
  const { data } = await sharp(file).raw().toBuffer({ resolveWithObject: true });
  const colours = (from: number, to: number) => {
    const found = new Set<string>();
    for (let dot = from; dot < to; dot += 1)
      found.add(data.subarray((900 * 1440 + dot) * 3, (900 * 1440 + dot) * 3 + 3).join(' '));
    return [...found].sort();
  };
  // Away from the thirds' edges at dots 480 and 960.
  expect(colours(20, 440)).toEqual(['0 255 0', '255 0 0']);
  expect(colours(520, 920)).toEqual(['255 255 255']);
  // White by 128/255 over none of a colour: linear 0.50196, code 188 (IEC 61966-2-1).
  expect(colours(1000, 1420)).toEqual(['188 255 188', '255 188 188']);
});
