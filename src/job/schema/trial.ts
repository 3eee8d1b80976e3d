/** What a job keeps of its prints: what is seen of the one on the table, and the log of all. */
import * as v from 'valibot';
import { barAcrossSchema, barAlongSchema, barsSchema } from './bar.ts';
import { lensSchema } from './lens.ts';
import { measure, wholeMeasure } from './measures.ts';
import { openObject } from './open-object.ts';

/** The settings that a print was woven with. */
export const printedSchema = openObject({
  viewingPitchMm: measure('Woven pitch', 0.05, 5, ' mm'),
  standing: v.picklist(['nominal', 'proved']),
  lens: lensSchema,
  distanceMm: measure('Viewing distance', 50, 50000, ' mm'),
  widthMm: measure('Print width', 5, 5000, ' mm'),
  heightMm: measure('Print height', 5, 20000, ' mm'),
  acrossDpi: measure('Dots across', 50, 10000, ' dpi'),
  alongDpi: measure('Dots along', 50, 10000, ' dpi'),
  ribs: v.picklist(['upright', 'lying']),
  viewSlots: wholeMeasure('View slots', 1, 200),
  columns: v.picklist(['blended', 'crisp']),
  /** How far the weave moved the views to the right; left out: not at all. */
  movedZones: v.optional(measure('Views moved', -0.5, 0.5, ' zones')),
  /** What the proved pitch was read from, measured by a ruler: the pitch contains its stretch. */
  provedBars: v.optional(barsSchema),
});

const bands = (what: string) => measure(what, 0, 500, '');
const headWay = (what: string) => measure(what, 0, 20000, ' mm');

/** The counts of `src/core/mend/counts.ts`, each left out while it is not known. */
export const countsSchema = openObject({
  bandsAcross: v.optional(bands('Bands across the ribs')),
  bandsAlong: v.optional(bands('Bands along the ribs')),
  lean: v.optional(v.picklist(['back', 'forth', 'none'])),
  run: v.optional(v.picklist(['with', 'against', 'forth', 'back'])),
  jumpForthMm: v.optional(headWay('The way to the jump')),
  jumpBackMm: v.optional(headWay('The way to the jump')),
  repeatMm: v.optional(measure('From jump to jump', 1, 20000, ' mm')),
  jumpTakesMm: v.optional(headWay('The way the jump takes')),
  barAcross: v.optional(barAcrossSchema),
  barAlong: v.optional(barAlongSchema),
  order: v.optional(v.picklist(['right', 'backwards'])),
  changes: v.optional(v.picklist(['across', 'never'])),
  patch: v.optional(
    v.union([
      v.literal('none'),
      openObject({
        across: measure('Place across', -0.5, 0.5, ''),
        along: measure('Place along', -0.5, 0.5, ''),
        width: measure('Width of the place', 0.01, 1, ''),
      }),
    ]),
  ),
  stripes: v.optional(
    v.union([
      v.literal('none'),
      openObject({
        heightMm: measure('Height of a stripe', 0.1, 500, ' mm'),
        apartMm: headWay('From stripe to stripe'),
      }),
    ]),
  ),
  standingStripes: v.optional(v.boolean()),
  hardEdges: v.optional(v.boolean()),
  doubledByDepth: v.optional(v.boolean()),
  clearBetween: v.optional(v.boolean()),
});

/** What is seen of the print on the table. */
export const seeingSchema = openObject({
  /** Ids of the chosen symptoms; unknown ones are ignored. */
  chosen: v.pipe(v.array(v.pipe(v.string(), v.maxLength(40))), v.maxLength(20)),
  counts: countsSchema,
  /** How the print was woven, recorded with the first thing that was seen. */
  printed: printedSchema,
});

const words = (what: string, most: number) =>
  v.pipe(v.string(), v.maxLength(most, `${what} must be at most ${most} letters long.`));

/** One print, and what was seen of it. */
export const trialSchema = openObject({
  id: v.pipe(v.string(), v.nonEmpty(), v.maxLength(60)),
  /** ISO 8601 date. */
  on: v.pipe(v.string(), v.isoDate()),
  printed: printedSchema,
  /** Name of the file that it was printed from. */
  file: v.optional(words('The file’s name', 200)),
  outcome: v.picklist(['good', 'failed']),
  chosen: v.pipe(v.array(v.pipe(v.string(), v.maxLength(40))), v.maxLength(20)),
  counts: countsSchema,
  /** What the studio found, and what was changed for the next print: sentences. */
  found: v.pipe(v.array(words('A finding', 300)), v.maxLength(20)),
  changed: v.pipe(v.array(words('A change', 300)), v.maxLength(20)),
  /** Signed zones of slide over the print, for the history's findings. */
  bandsAcross: v.optional(measure('Bands across the ribs', -500, 500, '')),
  bandsAlong: v.optional(measure('Bands along the ribs', -500, 500, '')),
  note: v.optional(words('The note', 2000)),
  /** In the person's own money. */
  cost: v.optional(measure('What it cost', 0, 1e9, '')),
  /** A small picture of it in the frame store. */
  photoId: v.optional(v.pipe(v.string(), v.nonEmpty(), v.maxLength(60))),
});

export type Printed = v.InferOutput<typeof printedSchema>;
export type SeenCounts = v.InferOutput<typeof countsSchema>;
export type Seeing = v.InferOutput<typeof seeingSchema>;
export type Trial = v.InferOutput<typeof trialSchema>;
export const MOST_TRIALS = 200;
