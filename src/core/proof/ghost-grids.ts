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

/** A mix of grids, or a plain tone. Titles are left out: they lie over all pictures alike. */
export const mixedGrid = (
  grids: readonly LightGrid[],
  { parts, light }: Pick<PictureMix, 'parts' | 'light'>,
  size: number,
): LightGrid => {
  const out = new Float32Array(size).fill(light / LINEAR_MAX);
  for (const { frame, share } of parts)
    for (let i = 0; i < size; i += 1) out[i] = out[i]! + share * grids[frame]![i]!;
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
