/** One print over several lens sheets: the lens sheet, how much of it is cut off, and the paper of a tile. */
import * as v from 'valibot';
import { measure, wholeMeasure } from './measures.ts';
import { openObject } from './open-object.ts';
import { paperNames } from './page.ts';

export const MOST_TILES_A_WAY = 40;

export const tilesSchema = openObject({
  /** False: the print has one lens sheet, and these settings are not used. */
  on: v.boolean(),
  /** A lens sheet as bought: across its ribs and along them. */
  lensAcrossMm: measure('Lens sheet across the ribs', 10, 5000, ' mm'),
  lensAlongMm: measure('Lens sheet along the ribs', 10, 20000, ' mm'),
  /** Cut off at each edge of the lens sheet, to reach a clean groove. */
  cutOffMm: measure('Cut off each lens edge', 0, 200, ' mm'),
  /** How far the neighbours' picture extends around each tile. */
  overlapMm: measure('Overlap', 0, 50, ' mm'),
  /** Left out: as few as the lens sheet allows. */
  across: v.optional(wholeMeasure('Tiles across the ribs', 1, MOST_TILES_A_WAY)),
  along: v.optional(wholeMeasure('Tiles along the ribs', 1, MOST_TILES_A_WAY)),
  /** The paper of all tiles; `smallest`: the smallest listed one on which they fit. */
  paper: v.picklist(['smallest', ...paperNames]),
  /** For paper of one's own size; the width is also that of a roll. */
  paperWidthMm: v.optional(measure('Tile paper width', 50, 6000, ' mm')),
  paperHeightMm: v.optional(measure('Tile paper height', 50, 21000, ' mm')),
});

export type Tiles = v.InferOutput<typeof tilesSchema>;
