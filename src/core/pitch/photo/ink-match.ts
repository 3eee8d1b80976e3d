/** How well a rectified photo shows the strip’s ink. */
import { MM_PER_INCH } from '../../units/units.ts';
import type { DotBox } from '../painted-rows.ts';
import type { StripLayout } from '../strip-layout.ts';
import type { StripSpec } from '../strip.ts';
import type { StripPlane } from './camera.ts';
import { homographyOf } from './camera.ts';
import type { PhotoPoint } from './photo-terms.ts';
import type { Grey } from './pieces.ts';

const CELL_MM = 0.6;

/** Ink on a grid of cells, 0 … 1; −1 where the look depends on the lens: bands and phase strip. */
interface InkGrid {
  readonly columns: number;
  readonly rows: number;
  readonly ink: Float32Array;
}

const cache = new WeakMap<StripLayout, InkGrid>();

const inkGrid = (spec: StripSpec, layout: StripLayout, plane: StripPlane): InkGrid => {
  const kept = cache.get(layout);
  if (kept !== undefined) return kept;
  const columns = Math.ceil(plane.widthMm / CELL_MM);
  const rows = Math.ceil(plane.heightMm / CELL_MM);
  const ink = new Float32Array(columns * rows);
  const lay = (box: DotBox, how: (at: number, share: number) => void) => {
    const x0 = (box.acrossFirst * MM_PER_INCH) / spec.acrossDpi / CELL_MM;
    const x1 = (box.acrossLast * MM_PER_INCH) / spec.acrossDpi / CELL_MM;
    const y0 = (box.alongFirst * MM_PER_INCH) / spec.alongDpi / CELL_MM;
    const y1 = (box.alongLast * MM_PER_INCH) / spec.alongDpi / CELL_MM;
    for (let y = Math.floor(y0); y < Math.min(rows, y1); y += 1)
      for (let x = Math.floor(x0); x < Math.min(columns, x1); x += 1)
        how(
          y * columns + x,
          (Math.min(x + 1, x1) - Math.max(x, x0)) * (Math.min(y + 1, y1) - Math.max(y, y0)),
        );
  };
  for (const box of layout.ink) lay(box, (at, share) => (ink[at] = Math.min(1, ink[at]! + share)));
  for (const box of [...layout.bands, layout.phase]) lay(box, (at) => (ink[at] = -1));
  const grid = { columns, rows, ink };
  cache.set(layout, grid);
  return grid;
};

/**
 * Correlation of darkness with ink outside the bands, −1 … 1; −1 for corners without a plane.
 * @param every use every so many cells each way.
 */
export const inkMatch = (
  grey: Grey,
  spec: StripSpec,
  layout: StripLayout,
  plane: StripPlane,
  corners: readonly [PhotoPoint, PhotoPoint, PhotoPoint, PhotoPoint],
  every = 1,
): number => {
  const h = homographyOf(plane.corners, corners);
  if (h === undefined) return -1;
  const { columns, rows, ink } = inkGrid(spec, layout, plane);
  let n = 0;
  let a = 0;
  let b = 0;
  let aa = 0;
  let bb = 0;
  let ab = 0;
  for (let row = 0; row < rows; row += every)
    for (let column = 0; column < columns; column += every) {
      const dark = ink[row * columns + column]!;
      if (dark < 0) continue;
      const x = plane.originX + (column + 0.5) * CELL_MM;
      const y = plane.originY + (row + 0.5) * CELL_MM;
      const depth = h[6]! * x + h[7]! * y + h[8]!;
      const px = Math.floor((h[0]! * x + h[1]! * y + h[2]!) / depth);
      const py = Math.floor((h[3]! * x + h[4]! * y + h[5]!) / depth);
      if (!(px >= 0 && py >= 0 && px < grey.width && py < grey.height)) continue;
      const light = grey.value[py * grey.width + px]!;
      n += 1;
      a += dark;
      b += light;
      aa += dark * dark;
      bb += light * light;
      ab += dark * light;
    }
  const under = (n * aa - a * a) * (n * bb - b * b);
  return n < (0.1 * rows * columns) / every ** 2 || !(under > 0)
    ? -1
    : -(n * ab - a * b) / Math.sqrt(under);
};
