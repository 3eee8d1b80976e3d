/** Parts of the print that are softer than the rest, as air under the lens makes them, as boxes. */
import type { CellGrid } from './cells.ts';
import { SOFTER } from './softer.ts';
import type { LiftedPart } from './terms.ts';

/** Cells are marked where a softer group has its middle: the group reaches this much further. */
const REACH = 2;

/** Groups of marked cells, joined four ways. */
const together = (
  { columns, rows }: CellGrid,
  marked: (cell: number) => boolean,
): readonly (readonly number[])[] => {
  const seen = new Uint8Array(columns * rows);
  const groups: number[][] = [];
  for (let seed = 0; seed < seen.length; seed += 1) {
    if (seen[seed] === 1 || !marked(seed)) continue;
    const group = [seed];
    seen[seed] = 1;
    for (const cell of group) {
      const [x, y] = [cell % columns, Math.floor(cell / columns)];
      const beside = [
        x > 0 ? cell - 1 : -1,
        x + 1 < columns ? cell + 1 : -1,
        y > 0 ? cell - columns : -1,
        y + 1 < rows ? cell + columns : -1,
      ];
      for (const next of beside)
        if (next >= 0 && seen[next] === 0 && marked(next)) {
          seen[next] = 1;
          group.push(next);
        }
    }
    groups.push(group);
  }
  return groups;
};

/**
 * Air softens a place and, beside the print's middle, slides it; a place that slides and is as sharp as the rest is not
 * lifted. Parts that cover more than half of the picture are the picture itself and are left out.
 * @param softer for each cell, by how many nats the group around it is softer than the print (`softerBy`).
 */
export const liftedParts = (grid: CellGrid, softer: Float32Array): LiftedPart[] => {
  const { columns, rows } = grid;
  return together(grid, (cell) => softer[cell]! > SOFTER)
    .map((group): LiftedPart => {
      const [xs, ys] = [
        group.map((cell) => cell % columns),
        group.map((cell) => Math.floor(cell / columns)),
      ];
      const left = Math.max(0, Math.min(...xs) - REACH);
      const right = Math.min(columns - 1, Math.max(...xs) + REACH);
      const top = Math.max(0, Math.min(...ys) - REACH);
      const bottom = Math.min(rows - 1, Math.max(...ys) + REACH);
      return {
        x: (left + right + 1) / 2 / columns - 0.5,
        y: (top + bottom + 1) / 2 / rows - 0.5,
        width: (right - left + 1) / columns,
        height: (bottom - top + 1) / rows,
      };
    })
    .filter(({ width, height }) => width * height < 0.5);
};
