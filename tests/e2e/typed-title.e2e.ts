/**
 * A title typed in the built studio: seen in the proof, woven, and measured in the file, against the stated millimetres
 * and the typeface's own tables.
 */
import { readFileSync } from 'node:fs';
import type { Page } from 'playwright/test';
import sharp from 'sharp';
import { axeFaults } from './support/axe.ts';
import { capHeightOf } from './support/font-tables.ts';
import { expect, test } from './support/kept-demo.ts';
import { field, keptAs, saved, type } from './support/page.ts';
import { layInSmall, middleOfProof } from './support/small-job.ts';

const black = (name: string) =>
  sharp({ create: { width: 200, height: 250, channels: 3, background: { r: 0, g: 0, b: 0 } } })
    .png()
    .toBuffer()
    .then((buffer) => ({ name, mimeType: '', buffer }));

const DPI = 720;
const mmOf = (dots: number) => (dots * 25.4) / DPI;

interface Span {
  readonly from: number;
  readonly to: number;
}

/** Where a line of light begins and ends, in dots: where it crosses half, between two of them. */
const spansOf = (light: readonly number[]): Span[] => {
  const half = Math.max(...light) / 2;
  const spans: Span[] = [];
  let from: number | undefined;
  for (let at = 1; at < light.length; at += 1) {
    const [before, now] = [light[at - 1] as number, light[at] as number];
    if (before < half === now < half) continue;
    const crossing = at - 0.5 + (half - before) / (now - before);
    if (now >= half) from = crossing;
    else if (from !== undefined) spans.push({ from, to: crossing });
  }
  return spans;
};

/** Linear light of an 8-bit sRGB code: IEC 61966-2-1. */
const linear = (code: number) =>
  code <= 10.31 ? code / 255 / 12.92 : ((code / 255 + 0.055) / 1.055) ** 2.4;

/** Of one colour, summed over the columns and over the rows of the sheet. */
const profiles = (data: Buffer, width: number, height: number, channel: number) => {
  const [rows, columns] = [new Array<number>(height).fill(0), new Array<number>(width).fill(0)];
  for (let row = 0; row < height; row += 1)
    for (let column = 0; column < width; column += 1) {
      const light = linear(data[(row * width + column) * 3 + channel] as number);
      rows[row] = (rows[row] as number) + light;
      columns[column] = (columns[column] as number) + light;
    }
  return { rows, columns };
};

const middleOf = (light: readonly number[]) =>
  light.reduce((sum, one, at) => sum + one * (at + 0.5), 0) / light.reduce((sum, one) => sum + one);

const words = (page: Page) => page.getByLabel('Words of the title', { exact: true });
const colour = (page: Page, label: string, value: string) =>
  page.getByLabel(label, { exact: true }).fill(value);
type Typed = { readonly [key: string]: unknown } | undefined;
const typedIn = (job: { readonly frames: readonly unknown[] }): Typed =>
  (job.frames as { readonly typed?: Typed }[]).find(({ typed }) => typed !== undefined)?.typed;

test('a typed title has its stated size, place and outline in the file', async ({ page }) => {
  await layInSmall(page, [await black('a_1.png'), await black('a_2.png')]);
  await page.getByRole('button', { name: 'Type a title' }).click();
  await words(page).fill('I');
  await type(page, 'Letter height', '20 mm');
  await type(page, 'Title down', '0');
  await keptAs(page, (job) => typedIn(job)?.['capMm'] === 20 && typedIn(job)?.['downMm'] === 0);
  expect(await axeFaults(page)).toEqual([]);

  // The stroke of an I lies in its middle.
  await page.goto('./#/weave');
  await expect(page.getByText(/Preparing frames/)).toBeHidden();
  await expect.poll(() => middleOfProof(page)).toEqual([255, 255, 255]);

  await page.goto('./#/frames');
  await words(page).fill('I\nI');
  await type(page, 'Letter height', '14 mm');
  await type(page, 'Outline width', '2 mm');
  // The tables tell of one weight alone: with others the capitals change by about a hundredth.
  await page.getByLabel('Weight', { exact: true }).selectOption({ label: 'Regular' });
  await colour(page, 'Outline colour', '#ff0000');
  await type(page, 'Title to the right', '5 mm');
  await page.getByRole('application', { name: 'Title on the print' }).press('ArrowUp');
  await type(page, 'Title down', '-7 mm');
  await keptAs(page, (job) => typedIn(job)?.['outlineColour'] === '#ff0000');
  await page.reload();
  await expect(words(page)).toHaveValue('I\nI');
  await expect(field(page, 'Title down')).toHaveValue('-7');

  await page.goto('./#/weave');
  await expect(page.getByText(/Preparing frames/)).toBeHidden();
  await page.getByRole('radio', { name: 'Crisp' }).check();
  await page.getByRole('button', { name: 'Weave sheet' }).click();
  const { bytes } = await saved(page, 'Save sheet');
  const { data, info } = await sharp(bytes).raw().toBuffer({ resolveWithObject: true });
  // White letters are all that is green; their red outline begins where they end.
  const letters = profiles(data, info.width, info.height, 1);
  const whole = profiles(data, info.width, info.height, 0);
  const [first, second] = spansOf(letters.rows);
  if (first === undefined || second === undefined) throw new Error('expected two lines');
  for (const { from, to } of [first, second]) expect(mmOf(to - from)).toBeCloseTo(14, 1);
  const cap = capHeightOf(
    readFileSync(
      'node_modules/@fontsource-variable/source-sans-3/files/source-sans-3-latin-wght-normal.woff2',
    ),
  );
  // Lines are 1.2 ems apart, and an em is the capital's height by the typeface's own tables.
  const apart = 1.2 * (14 / cap);
  expect(Math.abs(mmOf(second.from - first.from) / apart - 1)).toBeLessThan(0.01);
  // Its middle lies 5 mm to the right of the print's middle and 7 mm above it.
  expect(Math.abs(mmOf(middleOf(letters.columns) - info.width / 2) - 5)).toBeLessThan(0.1);
  const middle = (first.from + second.to) / 2;
  expect(Math.abs(mmOf(middle - info.height / 2) + 7)).toBeLessThan(0.1);
  // Two millimetres of outline above and below the letters.
  const reaches = spansOf(whole.rows.map((light) => Math.min(light, 100)));
  expect(Math.abs(mmOf(first.from - (reaches[0]?.from ?? 0)) - 2)).toBeLessThan(0.2);
});
