/** What a job keeps of its ghosts: the woven wedge and the ghost removal. */
import * as v from 'valibot';
import { MOST_LEAK } from '../../core/weave/ghost.ts';
import { EASE_CELLS } from '../../core/weave/ease.ts';
import { measure, wholeMeasure } from './measures.ts';
import { openObject } from './open-object.ts';

/** A leak is valid for one lens, one printer setting and one number of slots. */
const setting = {
  viewSlots: wholeMeasure('View slots', 1, 200),
  reachSlots: wholeMeasure('Slots to the other picture', 1, 200),
  lensPitchMm: measure('Lens pitch', 0.05, 5, ' mm'),
  acrossDpi: measure('Dots across', 50, 10000, ' dpi'),
  ribs: v.picklist(['upright', 'lying']),
  columns: v.picklist(['blended', 'crisp']),
};

export const ghostWedgeSchema = openObject({
  ...setting,
  /** Leak removed in the last patch. The first removes none; the steps are even. */
  strongest: measure('Strongest leak', 0.01, MOST_LEAK, ''),
  /** ISO 8601 date. */
  wovenOn: v.pipe(v.string(), v.isoDate()),
});

export const ghostTrimSchema = openObject({
  ...setting,
  /** c, a share of a place's own light; 0: no ghost removal. */
  leak: measure('Leak', 0, MOST_LEAK, ''),
  /** Half a step of the wedge that it was read from; left out if it was typed. */
  plusMinus: v.optional(measure('Uncertainty', 0, MOST_LEAK, '')),
  /** `kept`: black and white stay, and light outside them is clipped; `lowered`: nothing is clipped. */
  contrast: v.picklist(['kept', 'lowered']),
});

/** Contrast lowered where pictures of the flip shine through in others. */
export const ghostEaseSchema = openObject({
  masks: v.pipe(
    v.array(
      openObject({
        /** Id of the picture's frame. */
        frame: v.string(),
        /** Per cent taken away, by cell (src/core/weave/ease.ts). */
        cells: v.pipe(
          v.array(wholeMeasure('Contrast taken away', 0, 100)),
          v.length(EASE_CELLS ** 2, 'A mask has a number for each cell.'),
        ),
      }),
    ),
    v.maxLength(100),
  ),
});

export type GhostWedge = v.InferOutput<typeof ghostWedgeSchema>;
export type GhostTrimOfJob = v.InferOutput<typeof ghostTrimSchema>;
