/** A JPEG must hold all of the picture that it states: browsers fill what is missing with grey. */
import sharp from 'sharp';
import { expect, test } from 'vitest';
import { raw } from './decode-helpers.ts';
import { closedAfter, lyingJpeg, noisyJpeg, restartingJpeg } from './fuzz/hostile.ts';
import { AGAIN, expectLetThrough, expectOthersRefuse, expectRefused } from './refusals.ts';

test('that claims 14 000 × 14 000 pixels in 70 kB', async () => {
  const jpeg = await lyingJpeg(14000, 14000);
  expect(jpeg.length).toBeLessThan(80_000);
  await expectRefused(jpeg, 'damaged', /of its 14000 × 14000 pixels only the first \d+ rows/);
  await expectRefused(jpeg, 'damaged', AGAIN);
  await expectOthersRefuse(jpeg);
});

test.each([
  ['sequential', false],
  ['progressive', true],
])('%s, cut in half and closed with an end mark', async (_, progressive) => {
  const whole = await noisyJpeg(progressive);
  await expectLetThrough(whole);
  for (const share of [0.3, 0.5, 0.8, 0.95]) {
    const closed = closedAfter(whole, share);
    await expectRefused(closed, 'damaged', /only the first \d+ rows|before its last scan/);
    await expectOthersRefuse(closed);
  }
});

test('progressive, closed behind each of its scans', async () => {
  const whole = await noisyJpeg(true);
  const starts = [...whole.keys()].filter((at) => whole[at] === 0xff && whole[at + 1] === 0xda);
  expect(starts.length).toBeGreaterThan(5);
  for (const start of starts.slice(1))
    await expectRefused(closedAfter(whole, start / whole.length), 'damaged', /its last scan/);
});

test('whole ones of every kind are let through', async () => {
  const sizes = [
    [1, 1],
    [17, 33],
    [100, 3],
    [333, 257],
  ] as const;
  for (const [width, height] of sizes)
    for (const channels of [1, 3] as const)
      for (const progressive of [false, true])
        for (const chromaSubsampling of ['4:2:0', '4:4:4'])
          for (const quality of [5, 100]) {
            const pixels = Uint8Array.from(
              { length: width * height * channels },
              (_, i) => Math.imul(i, 2654435761) >>> 24,
            );
            const options = { progressive, chromaSubsampling, quality };
            const jpeg = raw(pixels, width, height, channels).jpeg(options);
            await expectLetThrough(await jpeg.toBuffer());
            await expectLetThrough(await jpeg.clone().jpeg({ mozjpeg: true }).toBuffer());
          }
});

test('with restart markers: whole, and with a piece too few', async () => {
  // Two bits of 0 for a block, filled up with ones.
  const piece = [0x3f];
  const whole = restartingJpeg(11, new Array<number[]>(11).fill(piece));
  expect(await sharp(whole).metadata()).toMatchObject({ width: 88, height: 8 });
  await sharp(whole).raw().toBuffer();
  await expectLetThrough(whole);
  // libvips passes over what is missing from the last row of blocks, and there is but one here.
  const short = restartingJpeg(11, new Array<number[]>(9).fill(piece));
  await expectRefused(short, 'damaged', /of its 88 × 8 pixels only/);
  const empty = restartingJpeg(3, [piece, [], piece]);
  await expectRefused(empty, 'damaged', /of its 24 × 8 pixels only/);
});
