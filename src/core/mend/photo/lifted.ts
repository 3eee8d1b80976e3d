/** Parts of the print that do not follow the rest: they slide differently, or are more blurred. */
import { medianOf } from '../../numeric/median.ts';
import type { LiftedPart, ViewMap } from './terms.ts';

/** Zones beyond which a smoothed cell slides, and the fewest such cells in a group (our own values). */
const SLIDES = 0.1;
const FEWEST = 6;
/** Nats by which a wide spread must explain a blurred cell better than the print’s own does (our own value). */
const BLURRED = 0.12;
/**
 * How far beyond the print’s own scatter a cell must lie, in its standard deviations (our own values, measured): a
 * print that is soft all over, by ink, air or the camera, tells its views less surely everywhere.
 */
const SLIDES_BEYOND = 4;
const BLURRED_BEYOND = 3;
/** The median deviation of a normal distribution, in standard deviations. */
const MEDIAN_OFF = 0.6745;

/** Mean over a cell and its eight neighbours, without NaN. */
const smoothed = (map: ViewMap, value: (cell: number) => number): Float32Array => {
  const { columns, rows } = map;
  return Float32Array.from({ length: columns * rows }, (_, cell) => {
    const [column, row] = [cell % columns, Math.floor(cell / columns)];
    let [sum, count] = [0, 0];
    for (let y = Math.max(0, row - 1); y <= Math.min(rows - 1, row + 1); y += 1)
      for (let x = Math.max(0, column - 1); x <= Math.min(columns - 1, column + 1); x += 1) {
        const one = value(y * columns + x);
        if (Number.isNaN(one)) continue;
        sum += one;
        count += 1;
      }
    return count < 3 ? NaN : sum / count;
  });
};

/** Middle and standard deviation by medians, which no part of less than half the print can pull. */
const scatterOf = (map: Float32Array): { readonly middle: number; readonly sigma: number } => {
  const told = Array.from(map).filter((one) => !Number.isNaN(one));
  const middle = medianOf(told);
  return { middle, sigma: medianOf(told.map((one) => Math.abs(one - middle))) / MEDIAN_OFF };
};

/** Groups of marked cells, joined four ways, as bounding boxes. */
const together = (
  { columns, rows }: ViewMap,
  marked: (cell: number) => boolean,
  how: LiftedPart['how'],
): LiftedPart[] => {
  const seen = new Uint8Array(columns * rows);
  const parts: LiftedPart[] = [];
  for (let seed = 0; seed < seen.length; seed += 1) {
    if (seen[seed] === 1 || !marked(seed)) continue;
    const stack = [seed];
    seen[seed] = 1;
    let [left, right, top, bottom, count] = [columns, 0, rows, 0, 0];
    for (let cell = stack.pop(); cell !== undefined; cell = stack.pop()) {
      const [x, y] = [cell % columns, Math.floor(cell / columns)];
      count += 1;
      left = Math.min(left, x);
      right = Math.max(right, x);
      top = Math.min(top, y);
      bottom = Math.max(bottom, y);
      const beside = [
        x > 0 ? cell - 1 : -1,
        x + 1 < columns ? cell + 1 : -1,
        y > 0 ? cell - columns : -1,
        y + 1 < rows ? cell + columns : -1,
      ];
      for (const next of beside)
        if (next >= 0 && seen[next] === 0 && marked(next)) {
          seen[next] = 1;
          stack.push(next);
        }
    }
    if (count >= FEWEST)
      parts.push({
        x: (left + right + 1) / 2 / columns - 0.5,
        y: (top + bottom + 1) / 2 / rows - 0.5,
        width: (right - left + 1) / columns,
        height: (bottom - top + 1) / rows,
        how,
      });
  }
  return parts;
};

/**
 * Parts that cover more than half of the picture are the picture itself and are left out.
 * @param blurred for each cell, how much better a wide spread explains it, nats.
 */
export const liftedParts = (map: ViewMap, blurred: Float32Array): LiftedPart[] => {
  const slides = smoothed(map, (cell) => map.left[cell]!);
  const blurs = smoothed(map, (cell) => (map.trust[cell]! > 0 ? blurred[cell]! : NaN));
  const [slid, blur] = [scatterOf(slides), scatterOf(blurs)];
  const slidesFrom = Math.max(SLIDES, SLIDES_BEYOND * slid.sigma);
  const blurredFrom = Math.max(BLURRED, blur.middle + BLURRED_BEYOND * blur.sigma);
  return [
    ...together(map, (cell) => Math.abs(slides[cell]!) > slidesFrom, 'slides'),
    ...together(map, (cell) => blurs[cell]! > blurredFrom, 'blurred'),
  ].filter(({ width, height }) => width * height < 0.5);
};
