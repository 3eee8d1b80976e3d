/**
 * One row of a picture seen from another camera position: every pixel moves by its own parallax, and the nearest wins
 * (forward warping with a depth buffer; depth-image-based rendering after Fehn, Proc. SPIE 5291, 2004). Samples are
 * finer than pixels, so that edges stay soft.
 */

/** Samples for each pixel of a made row. Odd, so that one of them is the pixel’s middle. */
export const FINE = 3;
/** Neighbours that separate or overlap by more than this, in pixels, may be two surfaces. */
const TEAR_PX = 0.5;
/** They are, when the jump is this many times the quieter of its neighbours. */
const TEAR_RATIO = 3;

/** Buffers for rows of one width, reused from row to row. */
export interface WarpRow {
  readonly width: number;
  /** Length width × FINE: the source place, in pixels, that each sample shows; NaN where none. */
  readonly from: Float32Array;
  /** Its part; Infinity where there is none. */
  readonly part: Float32Array;
  /** Length width: 1 where x and x + 1 are two surfaces. */
  readonly torn: Uint8Array;
}

export const warpRowOf = (width: number): WarpRow => ({
  width,
  from: new Float32Array(width * FINE),
  part: new Float32Array(width * FINE),
  torn: new Uint8Array(width),
});

/** Marks where neighbours are two surfaces. */
const findEdges = (row: WarpRow, parts: Float32Array, base: number, slide: number): void => {
  const { width, torn } = row;
  torn.fill(0);
  const jump = (x: number): number =>
    x < 0 || x >= width - 1 ? 0 : slide * (parts[base + x + 1]! - parts[base + x]!);
  for (let x = 0; x < width - 1; x += 1) {
    const size = Math.abs(jump(x));
    if (size <= TEAR_PX) continue;
    const quiet = Math.min(Math.abs(jump(x - 1)), Math.abs(jump(x + 1)));
    if (size > TEAR_RATIO * quiet) torn[x] = 1;
  }
};

/** Puts source places u0 … u1 with parts p0 … p1 on the stretch a … b of the made row. */
const lay = (
  { from, part }: WarpRow,
  a: number,
  b: number,
  u0: number,
  u1: number,
  p0: number,
  p1: number,
): void => {
  // Pixel centres are whole numbers; a sample's centre lies at (i + 1/2) / FINE − 1/2.
  const first = Math.max(0, Math.ceil((a + 0.5) * FINE - 0.5));
  const last = Math.min(from.length - 1, Math.ceil((b + 0.5) * FINE - 0.5) - 1);
  const rate = b > a ? 1 / (b - a) : 0;
  for (let i = first; i <= last; i += 1) {
    const share = ((i + 0.5) / FINE - 0.5 - a) * rate;
    const p = p0 + share * (p1 - p0);
    if (p >= part[i]!) continue;
    part[i] = p;
    from[i] = u0 + share * (u1 - u0);
  }
};

/**
 * Fills `row` for a camera to the right (`slide` > 0) or left of the picture’s own.
 * @param parts of the whole picture, row-major; this row begins at `base`.
 * @param slide pixels by which infinitely far things move.
 * @param keyPart part of the key plane.
 */
export const warpInto = (
  row: WarpRow,
  parts: Float32Array,
  base: number,
  slide: number,
  keyPart: number,
): void => {
  const { width, from, part, torn } = row;
  from.fill(NaN);
  part.fill(Infinity);
  findEdges(row, parts, base, slide);
  const placeOf = (x: number): number => x + slide * (parts[base + x]! - keyPart);
  /** Puts one half of pixel x, at a tear or at an end of the picture. */
  const half = (x: number, at: number, side: -0.5 | 0.5): void => {
    const p = parts[base + x]!;
    if (side < 0) lay(row, at + side, at, x + side, x, p, p);
    else lay(row, at, at + side, x, x + side, p, p);
  };
  let place = placeOf(0);
  half(0, place, -0.5);
  for (let x = 0; x < width - 1; x += 1) {
    const next = placeOf(x + 1);
    if (torn[x] !== 1) lay(row, place, next, x, x + 1, parts[base + x]!, parts[base + x + 1]!);
    else {
      half(x, place, 0.5);
      half(x + 1, next, -0.5);
    }
    place = next;
  }
  half(width - 1, place, 0.5);
};
