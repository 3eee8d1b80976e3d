/** Changes to the tiles, each a step to undo. */
import { setTiles } from '../facts/tiles.ts';
import type { JobEdit } from './edit.ts';

export const changeTiles = (label: string, change: Parameters<typeof setTiles>[1]): JobEdit => [
  label,
  (job) => setTiles(job, change),
  `tiles.${label}`,
];

/** A lens of the shelf states its measures across its ribs and along them, as the tiles want them. */
export const lensSheetOf = ({
  widthMm,
  heightMm,
}: {
  readonly widthMm: number;
  readonly heightMm: number;
}) => ({ lensAcrossMm: widthMm, lensAlongMm: heightMm });
