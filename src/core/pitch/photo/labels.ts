/**
 * Tells whether the labels in the photo belong to this strip: nothing else visible differs between strips. Each
 * figure is compared with all ten; one that clearly looks like another is evidence against it.
 */
import { lettering } from '../lettering.ts';
import { labelPlace } from '../strip-layout.ts';
import type { StripSpec } from '../strip.ts';
import { bandLabel } from '../strip.ts';
import type { Homography, StripPlane } from './camera.ts';
import { toPhoto } from './camera.ts';
import type { PhotoPixels } from './photo-terms.ts';
import { LINEAR } from './sample.ts';

const COLUMNS = 5;
const ROWS = 7;
const ADVANCE = 6;
/** With fewer pixels for each square, figures run into each other. */
const LEAST_PX_A_SQUARE = 2;
const CLEARLY = 0.15;
const SHIFTS_MM = [-0.5, -0.25, 0, 0.25, 0.5];

/** Ink of each figure, square by square. */
const FIGURES = Array.from({ length: 10 }, (_, figure) => {
  const ink = new Float64Array(COLUMNS * ROWS);
  for (const { across, along, width } of lettering(String(figure), 0, 0, 1))
    ink.fill(1, along * COLUMNS + across, along * COLUMNS + across + width);
  return ink;
});

const correlation = (a: Float64Array, b: Float64Array): number => {
  const n = a.length;
  const [ma, mb] = [a, b].map((one) => one.reduce((sum, v) => sum + v, 0) / n) as [number, number];
  let aa = 0;
  let bb = 0;
  let ab = 0;
  for (let i = 0; i < n; i += 1) {
    const x = a[i]! - ma;
    const y = b[i]! - mb;
    aa += x * x;
    bb += y * y;
    ab += x * y;
  }
  return aa * bb > 0 ? ab / Math.sqrt(aa * bb) : 0;
};

/** Darkness of each square of a figure with its corner at (x, y) of the plane. */
const squaresAt = (
  { widthPx, heightPx, data }: PhotoPixels,
  h: Homography,
  x: number,
  y: number,
  squareMm: number,
): Float64Array => {
  const dark = new Float64Array(COLUMNS * ROWS);
  for (let i = 0; i < dark.length; i += 1)
    for (const dx of [0.25, 0.75])
      for (const dy of [0.25, 0.75]) {
        const { xPx, yPx } = toPhoto(
          h,
          x + ((i % COLUMNS) + dx) * squareMm,
          y + (Math.floor(i / COLUMNS) + dy) * squareMm,
        );
        const [px, py] = [Math.floor(xPx), Math.floor(yPx)];
        if (px >= 0 && py >= 0 && px < widthPx && py < heightPx)
          dark[i]! -= LINEAR[data[(py * widthPx + px) * 4 + 1]!]!;
      }
  return dark;
};

/** `unread`: too small or too unclear. */
export const labelsSay = (
  pixels: PhotoPixels,
  h: Homography,
  { bandsLpi }: StripSpec,
  plane: StripPlane,
  pxPerMm: number,
): 'these' | 'others' | 'unread' => {
  let [agree, against, asked] = [0, 0, 0];
  bandsLpi.forEach((bandLpi, band) => {
    const text = bandLabel(bandLpi);
    const { across, along, squareMm } = labelPlace(text, band);
    if (pxPerMm * squareMm < LEAST_PX_A_SQUARE) return;
    const places = text.split('').flatMap((letter, place) => (letter === '.' ? [] : [place]));
    let best: readonly (readonly number[])[] = [];
    let most = -Infinity;
    for (const dx of SHIFTS_MM)
      for (const dy of SHIFTS_MM) {
        const matches = places.map((place) => {
          const x = plane.originX + across + place * ADVANCE * squareMm + dx;
          const dark = squaresAt(pixels, h, x, plane.originY + along + dy, squareMm);
          return FIGURES.map((ink) => correlation(dark, ink));
        });
        const sum = matches.reduce((total, one) => total + Math.max(...one), 0);
        if (sum > most) [most, best] = [sum, matches];
      }
    best.forEach((matches, i) => {
      const mine = matches[Number(text[places[i]!])]!;
      const other = Math.max(...matches.filter((_, figure) => String(figure) !== text[places[i]!]));
      asked += 1;
      if (mine >= other) agree += 1;
      else if (other > 0.6 && other - mine > CLEARLY) against += 1;
    });
  });
  if (asked === 0) return 'unread';
  if (against > 0.15 * asked) return 'others';
  return agree > 0.75 * asked ? 'these' : 'unread';
};
