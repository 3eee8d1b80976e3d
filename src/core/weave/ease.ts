/**
 * Contrast lowered in some places of a picture: there its light is drawn towards the picture's mean, so that less of it
 * shows through in other pictures.
 */

/** Cells of the mask across and down the print. */
export const EASE_CELLS = 9;

/** Row-major, EASE_CELLS × EASE_CELLS, per cent of the contrast that is taken away. */
export type EaseMask = readonly number[];

/** At the middles of cells it is theirs; between them it changes evenly, so that no edge shows. */
const along = (samples: number) =>
  Array.from({ length: samples }, (_, sample) => {
    const at = Math.min(EASE_CELLS - 1, Math.max(0, ((sample + 0.5) / samples) * EASE_CELLS - 0.5));
    const cell = Math.min(EASE_CELLS - 2, Math.floor(at));
    return { cell, share: at - cell };
  });

/** Share that is taken away at each sample of a row of `columns`, from the mask's rows beside it. */
const rowOf = (
  mask: EaseMask,
  { cell, share }: { readonly cell: number; readonly share: number },
  columns: ReturnType<typeof along>,
): Float64Array => {
  const line = Array.from({ length: EASE_CELLS }, (_, x) => {
    const [upper, lower] = [mask[cell * EASE_CELLS + x]!, mask[(cell + 1) * EASE_CELLS + x]!];
    return (upper + (lower - upper) * share) / 100;
  });
  return Float64Array.from(
    columns,
    (at) => line[at.cell]! + (line[at.cell + 1]! - line[at.cell]!) * at.share,
  );
};

/** In place. @param pixels row-major, `channels` values of linear light each, 0 … 65535 or 0 … 1 */
const ease = (
  pixels: Uint16Array | Float32Array,
  size: { readonly columns: number; readonly rows: number; readonly channels: number },
  mask: EaseMask,
  rounding: number,
): void => {
  const { columns, rows, channels } = size;
  const mean = new Float64Array(channels);
  for (let i = 0; i < pixels.length; i += 1) mean[i % channels] = mean[i % channels]! + pixels[i]!;
  for (let c = 0; c < channels; c += 1) mean[c] = mean[c]! / (columns * rows);
  const [across, down] = [along(columns), along(rows)];
  for (let row = 0, i = 0; row < rows; row += 1) {
    const taken = rowOf(mask, down[row]!, across);
    for (let column = 0; column < columns; column += 1)
      for (let c = 0; c < channels; c += 1, i += 1) {
        const light = pixels[i]!;
        pixels[i] = light + taken[column]! * (mean[c]! - light) + rounding;
      }
  }
};

/** A reduced frame, in place. RGB, linear light, 0 … 65535. */
export const easeFrame = (
  frame: { readonly pixels: Uint16Array; readonly columns: number; readonly rows: number },
  mask: EaseMask,
): void => {
  ease(frame.pixels, { ...frame, channels: 3 }, mask, 0.5);
};

/** The same of a grid of light. */
export const easedGrid = (
  grid: Float32Array,
  size: { readonly columns: number; readonly rows: number },
  mask: EaseMask,
): Float32Array => {
  const out = Float32Array.from(grid);
  ease(out, { ...size, channels: 1 }, mask, 0);
  return out;
};
