/** A print over two lenses in the built studio: split, woven, saved, and its files fitted by their marks. */
import type { Page } from 'playwright/test';
import sharp from 'sharp';
import { expect, test } from './support/kept-demo.ts';
import { saved, showPart, type } from './support/page.ts';

const DPI = 360;
const dots = (lengthMm: number) => Math.round((lengthMm * DPI) / 25.4);

/** A saved tile, and where its corner marks stand: as a person would register it. */
const readTile = async (page: Page, link: string) => {
  const { bytes: file } = await saved(page, link);
  const { data, info } = await sharp(file)
    .removeAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  const grey = (x: number, y: number) => data[(y * info.width + x) * 3] as number;
  const row = (y: number) => Array.from({ length: info.width }, (_, x) => grey(x, y));
  const firstInk = Array.from({ length: info.height }, (_, y) => y).find((y) => row(y).includes(0));
  // The topmost ink is the mark at the middle of the top. From the trim up: 3 mm of overlap, a gap of
  // 1, rails of 6, a gap of 1, and the mark's 5.
  const top = (firstInk ?? 0) + dots(3 + 1 + 6 + 1 + 5);
  const corner = row(top - dots(6.5));
  const ink = corner.flatMap((value, x) => (value === 0 ? [x] : []));
  const middleOfRun = (from: number, step: 1 | -1) => {
    let end = from;
    while (corner[end + step] === 0) end += step;
    return (from + end + 1) / 2;
  };
  return {
    top,
    left: middleOfRun(ink[0] ?? 0, 1),
    right: middleOfRun(ink.at(-1) ?? 0, -1),
    dotAt: (x: number, y: number) => [...data.subarray((y * info.width + x) * 3).subarray(0, 3)],
  };
};

test('a print over two lenses is woven in two files that fit each other dot for dot', async ({
  page,
}) => {
  await page.goto('./#/mount');
  await showPart(page, 'Tiles');
  await page.getByRole('radio', { name: 'Several, side by side' }).check();
  await type(page, 'Dots across', String(DPI));
  await type(page, 'Dots along', String(DPI));
  await type(page, 'View slots', '6');
  await type(page, 'Print width', '100 mm');
  await type(page, 'Print height', '60 mm');
  await type(page, 'Lens sheet across the ribs', '75 mm');
  await type(page, 'Lens sheet along the ribs', '90 mm');
  await expect(page.getByRole('img', { name: '2 tiles to scale, 1 rows of 2' })).toBeVisible();
  await page.getByRole('button', { name: 'Weave tiles' }).click();
  await expect(page.getByText(/^2 tiles woven in/)).toBeVisible();

  const [first, second] = [
    await readTile(page, 'Save row 1, tile 1'),
    await readTile(page, 'Save row 1, tile 2'),
  ];
  // 99.48 mm hold 235 whole ribs of 25.4 / 60 mm: 118 and 117 of them, or the other way round.
  const wide = [first, second].map(({ left, right }) => ((right - left) * 25.4) / DPI);
  expect(Math.abs((wide[0] ?? 0) + (wide[1] ?? 0) - (235 * 25.4) / 60)).toBeLessThan(0.15);

  // About the seam each holds the other's picture, as far as the overlap: to within a dot at the marks.
  const reach = dots(3) - 2;
  const alike = (shift: number) => {
    for (let y = 0; y < dots(60); y += 7)
      for (let x = -reach; x < reach; x += 1) {
        const a = first.dotAt(Math.round(first.right) + x, first.top + y);
        const b = second.dotAt(Math.round(second.left) + x + shift, second.top + y);
        if (a.join() !== b.join()) return false;
      }
    return true;
  };
  expect([-1, 0, 1].filter(alike)).toHaveLength(1);
});
