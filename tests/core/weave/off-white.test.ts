/** Thumbnails of transparent pictures: what lies beneath shows, and the picture's own colour is as it was. */
import { expect, test } from 'vitest';
import { linearToSrgb, srgbToLinear } from '../../../src/core/colour/srgb.ts';
import { encodeOffWhite, thumbnailOf } from '../../../src/core/weave/proof.ts';

/** 8-bit sRGB code of a colour laid on white, in linear light (Porter and Duff 1984, "over"). */
const onWhite = (code: number, share: number): number =>
  Math.round(255 * linearToSrgb(share * srgbToLinear(code / 255) + (1 - share)));

/** Pixels side by side: a code of grey, and how much of it is there, 0 … 255. */
const thumbnail = (
  pixels: readonly (readonly [code: number, alpha: number])[],
  columns: number,
) => {
  const image = {
    widthPx: pixels.length,
    heightPx: 1,
    channels: 3,
    encoding: 'srgb8',
    data: Uint8Array.from(
      pixels.flatMap(([code, a]) => Array<number>(3).fill(onWhite(code, a / 255))),
    ),
  } as const;
  const small = thumbnailOf(image, columns, 0);
  const { pixels: rgba } = encodeOffWhite(
    small,
    image,
    Uint8Array.from(pixels, ([, a]) => a),
  );
  return Array.from({ length: columns }, (_, x) => [rgba[4 * x]!, rgba[4 * x + 3]!] as const);
};

test('a white title stays white, and clear around it', () => {
  expect(
    thumbnail(
      [
        [0, 0],
        [255, 255],
        [255, 128],
        [0, 0],
      ],
      4,
    ),
  ).toEqual([
    [0, 0],
    [255, 255],
    [255, 128],
    [0, 0],
  ]);
});

test('a grey that is half there is that grey, not one mixed with paper', () => {
  const [[code, alpha] = [NaN, NaN]] = thumbnail([[90, 128]], 1);
  // Laid on white it was rounded to a code, which half of it doubles.
  expect(Math.abs(code - 90)).toBeLessThanOrEqual(2);
  expect(alpha).toBe(128);
});

test('made smaller, edges are there in part', () => {
  // Two pixels become one: one that is there and one that is not.
  expect(
    thumbnail(
      [
        [255, 255],
        [255, 0],
        [0, 0],
        [0, 0],
      ],
      2,
    ),
  ).toEqual([
    [255, 128],
    [0, 0],
  ]);
});
