/** A whole picture seen from another camera position, with the filled parts marked. */
import type { ReducedFrame } from '../../weave/reduce.ts';
import { colourRow, fillHoles } from './colour.ts';
import type { FilledPlaces } from './filled-places.ts';
import { FINE, warpInto, warpRowOf } from './warp.ts';

/** `holes` for every pixel. */
export interface MadePicture extends FilledPlaces {
  /** Row-major RGB, linear light 0 … 65535. */
  readonly pixels: Uint16Array<ArrayBuffer>;
}

export interface ViewPlace {
  /** Pixels by which infinitely far things move against the picture; above 0: camera to the right. */
  readonly slide: number;
  /** Part, z / (D + z), of the key plane. */
  readonly keyPart: number;
}

/** Rows between two yields. */
const ROWS_A_STEP = 16;
/** Filled pixels differ from row to row; a mean over this many rows above and below removes the streaks. */
const SOFTEN_ROWS = 2;

/** Replaces each wholly filled pixel by its mean with those above and below. */
const softenFill = ({ columns, rows, pixels, holes }: MadePicture): void => {
  const ring = new Map<number, Uint16Array>();
  const before = (y: number): Uint16Array => ring.get(y)!;
  const keep = (y: number): void => {
    if (y < rows) ring.set(y, pixels.slice(3 * y * columns, 3 * (y + 1) * columns));
  };
  for (let y = 0; y < SOFTEN_ROWS; y += 1) keep(y);
  for (let y = 0; y < rows; y += 1) {
    keep(y + SOFTEN_ROWS);
    ring.delete(y - SOFTEN_ROWS - 1);
    const first = Math.max(0, y - SOFTEN_ROWS);
    const last = Math.min(rows - 1, y + SOFTEN_ROWS);
    for (let x = 0; x < columns; x += 1) {
      if (holes[y * columns + x] !== 255) continue;
      let [r, g, b, count] = [0, 0, 0, 0];
      for (let v = first; v <= last; v += 1) {
        if (holes[v * columns + x] !== 255) continue;
        const line = before(v);
        r += line[3 * x]!;
        g += line[3 * x + 1]!;
        b += line[3 * x + 2]!;
        count += 1;
      }
      const at = 3 * (y * columns + x);
      pixels[at] = r / count;
      pixels[at + 1] = g / count;
      pixels[at + 2] = b / count;
    }
  }
};

/**
 * Yields now and then, so that long work can be stopped.
 * @param parts for every pixel of the picture, as from `fitDepth`.
 */
export function* viewFrom(
  picture: ReducedFrame,
  parts: Float32Array,
  { slide, keyPart }: ViewPlace,
): Generator<undefined, MadePicture> {
  const { columns, rows } = picture;
  const made: MadePicture = {
    columns,
    rows,
    pixels: new Uint16Array(3 * columns * rows),
    holes: new Uint8Array(columns * rows),
  };
  const row = warpRowOf(columns);
  const fill = new Float64Array(3 * FINE * columns);
  for (let y = 0; y < rows; y += 1) {
    const base = y * columns;
    const source = { pixels: picture.pixels, base: 3 * base };
    warpInto(row, parts, base, slide, keyPart);
    fillHoles(row, source, slide, fill);
    colourRow(row, source, fill, made, base);
    if (y % ROWS_A_STEP === 0) yield;
  }
  softenFill(made);
  return made;
}

/** Share of the picture that was filled, 0 … 1. */
export const inventedShare = ({ holes }: Pick<MadePicture, 'holes'>): number => {
  let sum = 0;
  for (const hole of holes) sum += hole;
  return holes.length === 0 ? 0 : sum / 255 / holes.length;
};
