/** Changes to the tiles, each a step to undo. */
import type { LensEntry } from '../../materials/shelves.ts';
import { setTiles } from '../facts/tiles.ts';
import { tryChange } from '../../state/change.ts';

export const changeTiles = (
  label: string,
  change: Parameters<typeof setTiles>[1],
): string | undefined => tryChange(label, (job) => setTiles(job, change), `tiles.${label}`);

/** A lens entry's measures are stated across its ribs and along them, as the tiles want them. */
export const sizeOfEntry = ({ widthMm, heightMm }: LensEntry) => ({
  lensAcrossMm: widthMm,
  lensAlongMm: heightMm,
});
