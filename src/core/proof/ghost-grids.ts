/** The proof's pictures as coarse grids of light, to judge ghosts by. */
import { LINEAR_MAX } from '../colour/srgb.ts';
import type { LightGrid } from '../plan/ghost-map.ts';
import type { GhostTrim } from '../weave/ghost.ts';
import { trimSlices } from '../weave/ghost.ts';
import type { PictureMix } from '../weave/mix-slices.ts';
import type { Ribs } from '../weave/sheet-spec.ts';
import { fitLinear } from './fit-picture.ts';
import type { Picture } from './scene.ts';

export interface GridSize {
  readonly columns: number;
  readonly rows: number;
}

/** Relative luminance of linear sRGB (IEC 61966-2-1), 0 … 1. */
export const luminanceGrid = (picture: Picture, { columns, rows }: GridSize): LightGrid => {
  const { light } = fitLinear(picture, columns, rows);
  return Float32Array.from(
    { length: columns * rows },
    (_, i) =>
      (0.2126 * light[3 * i]! + 0.7152 * light[3 * i + 1]! + 0.0722 * light[3 * i + 2]!) /
      LINEAR_MAX,
  );
};

/** A row of a grid between its cells: its ends go on past its edges. */
const between = (grid: LightGrid, row: number, columns: number, at: number): number => {
  const place = Math.min(columns - 1, Math.max(0, at));
  const left = Math.min(Math.floor(place), Math.max(0, columns - 2));
  const one = grid[row * columns + left]!;
  const next = grid[row * columns + Math.min(columns - 1, left + 1)]!;
  return one + (next - one) * (place - left);
};

/**
 * A mix of grids, or a plain tone, with the title over it. Light of the title over white and over black differs by what
 * shows through, in each colour alike, so luminance may be mixed as the colours are.
 * @param lenticules over the grid’s width
 */
export const mixedGrid = (
  grids: readonly LightGrid[],
  { parts, light, over }: PictureMix,
  { columns, rows }: GridSize,
  lenticules: number,
): LightGrid => {
  const out = new Float32Array(columns * rows).fill(light / LINEAR_MAX);
  for (const { frame, share } of parts)
    for (let i = 0; i < out.length; i += 1) out[i] = out[i]! + share * grids[frame]![i]!;
  if (over === undefined) return out;
  const [white, black] = [grids[over.onWhite]!, grids[over.onBlack]!];
  const shift = (over.shift * columns) / lenticules;
  for (let i = 0; i < out.length; i += 1) {
    const row = Math.floor(i / columns);
    const at = (i % columns) - shift;
    const dark = between(black, row, columns, at);
    const through = Math.max(0, between(white, row, columns, at) - dark);
    out[i] = Math.min(1, dark + through * out[i]!);
  }
  return out;
};

export interface GridSlots {
  /** What the slots show, each once. */
  readonly contents: readonly LightGrid[];
  /** By view slot, an index. */
  readonly slots: readonly number[];
}

/** The contents as they are woven, with their ghosts taken out. */
export const trimmedGrids = (
  { contents, slots }: GridSlots,
  { columns, rows }: GridSize,
  ribs: Ribs,
  trim: GhostTrim,
): GridSlots => {
  const frames = contents.map((grid) => {
    const pixels = new Uint16Array(grid.length * 3);
    grid.forEach((light, i) => pixels.fill(Math.round(light * LINEAR_MAX), 3 * i, 3 * i + 3));
    return { columns, rows, firstRow: 0, pixels };
  });
  const { stack } = trimSlices({ frames, slots }, ribs, trim);
  return {
    contents: stack.frames.map(({ pixels }) =>
      Float32Array.from({ length: columns * rows }, (_, i) => pixels[3 * i]! / LINEAR_MAX),
    ),
    slots: stack.slots,
  };
};
