/** Changes to the tiles, each a step to undo. */
import { setTiles } from '../facts/tiles.ts';
import { editsOf } from './edit.ts';

export const changeTiles = editsOf('tiles', setTiles);

/** The shelf states a lens sheet's width across its ribs and its height along them. */
export const lensSheetOf = (sheet: { readonly widthMm: number; readonly heightMm: number }) => ({
  lensAcrossMm: sheet.widthMm,
  lensAlongMm: sheet.heightMm,
});
