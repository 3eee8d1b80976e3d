/** Several prints of the demo on one lens, with another kept job beside them: woven, saved, looked at. */
import sharp from 'sharp';
import { expect, test } from './support/kept-demo.ts';
import { saved, showPart, type } from './support/page.ts';

test('several prints of the demo are laid out, cut by a list, woven and saved at the lens sheet’s size', async ({
  page,
}) => {
  await page.goto('./#/mount');
  await showPart(page, 'Several prints on one lens sheet');
  await page.getByRole('radio', { name: 'Several prints', exact: true }).check();
  await type(page, 'Print width', '30 mm');
  await type(page, 'Print height', '25 mm');
  await type(page, 'Lens across the ribs', '90 mm');
  await type(page, 'Lens along the ribs', '80 mm');

  // 74 mm between the free edges: 174 ribs of 60 to the inch, 173 to be odd. 30 mm are 71 ribs (30.06
  // mm), a gap of 3 mm is 8: two across. Along 64 mm, two of 25 mm and a gap: two. Six cuts at most
  // through the sheet and the strips: 4 along the ribs, then 4 across in each of two strips.
  await expect(page.getByRole('img', { name: /Lens sheet with 4 prints/ })).toBeVisible();
  const list = page.getByRole('table', { name: 'Cutting list' });
  await expect(list.getByRole('row')).toHaveCount(1 + 4 + 2 * 4);

  await type(page, 'Copies', '3');
  await expect(page.getByRole('img', { name: /Lens sheet with 3 prints/ })).toBeVisible();
  await page.getByRole('button', { name: /^Undo/ }).click();
  await expect(page.getByRole('img', { name: /Lens sheet with 4 prints/ })).toBeVisible();

  await page.getByRole('button', { name: 'Weave several prints' }).click();
  const { bytes: file } = await saved(page, 'Save several prints');
  const { data, info } = await sharp(file)
    .removeAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  const dots = (lengthMm: number) => Math.round((lengthMm * 720) / 25.4);
  expect([info.width, info.height]).toEqual([dots(90), dots(80)]);
  const meanOf = (leftMm: number, topMm: number, rightMm: number, bottomMm: number) => {
    let sum = 0;
    let count = 0;
    for (let y = dots(topMm); y < dots(bottomMm); y += 3)
      for (let x = dots(leftMm); x < dots(rightMm); x += 1) {
        sum += data[(y * info.width + x) * 3] as number;
        count += 1;
      }
    return sum / count;
  };
  // From the first groove, (90 − 173 × 0.4233) / 2 = 8.38 mm, two prints of 30.06 and a gap of 3.39 mm.
  const prints = [8.38, 8.38 + 30.06 + 3.39].flatMap((left) =>
    [8, 8 + 28].map((top) => [left, top]),
  );
  for (const [left, top] of prints as [number, number][])
    expect(meanOf(left + 1, top + 1, left + 29, top + 24)).toBeLessThan(250);
  // The same picture in each: their means agree to a code and a half.
  const means = (prints as [number, number][]).map(([x, y]) =>
    meanOf(x + 1, y + 1, x + 29, y + 24),
  );
  expect(Math.max(...means) - Math.min(...means)).toBeLessThan(1.5);
  // The middle of the gap is paper, and so is what lies right of the last print.
  expect(meanOf(8.38 + 30.06 + 1.2, 12, 8.38 + 30.06 + 2.2, 30)).toBe(255);
});
