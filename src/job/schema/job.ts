/**
 * The job: everything about one print that is kept, undone and saved to a file, as one validated document. The types
 * follow from the schema.
 */
import * as v from 'valibot';
import { MM_PER_INCH } from '../../core/units/units.ts';
import { gridOf } from '../facts/printer.ts';
import { colourSchema } from './colour.ts';
import { lensSchema } from './lens.ts';
import { gangSchema } from './gang.ts';
import { ghostEaseSchema, ghostTrimSchema, ghostWedgeSchema } from './ghost.ts';
import { lampSchema } from './lamp.ts';
import { madeSchema } from './made.ts';
import { lensWishSchema } from './lens-wish.ts';
import { measure, wholeMeasure } from './measures.ts';
import { openObject } from './open-object.ts';
import { pageSchema } from './page.ts';
import { pitchStripSchema, provedPitchSchema } from './pitch.ts';
import { pictureLightSchema, placeSchema } from './place.ts';
import { recipeSchema, titleSchema } from './recipe.ts';
import { rigSchema } from './rig.ts';
import { stageSchema } from './stage.ts';
import { stockSchema } from './stock.ts';
import { printRunSchema } from './print-run.ts';
import { tilesSchema } from './tiles.ts';
import { typedSchema } from './typed.ts';
import { MOST_TRIALS, seeingSchema, trialSchema } from './trial.ts';

/** A thing on the depth ruler: z > 0 behind the print. */
export const depthMarkSchema = openObject({
  name: v.pipe(v.string(), v.maxLength(60, 'The name must be at most 60 letters long.')),
  zMm: measure('Depth', -50000, 1000000, ' mm'),
});

/** How exact the print must be, and how exactly its numbers are known. */
export const exactnessSchema = openObject({
  /** τ: zones by which the picture may slide from edge to edge. */
  budgetZones: measure('Budget', 0.01, 1, ' of a zone'),
  /** The pitch is known to ± this many LPI. */
  pitchUnsureLpi: measure('Pitch known to', 0.001, 10, ' LPI'),
  /** How much paper and printer stretch the print; 0.001: one part in a thousand. */
  stretchShare: v.pipe(
    v.number('Stretch must be a number.'),
    v.minValue(0, 'Stretch must be at least 0 %: type a shrinking print as a stretch too.'),
    v.maxValue(0.05, 'Stretch must be at most 5 %: more is a print that was scaled.'),
  ),
});

/** The printer's own grid: what of it lies across the ribs follows by `gridOf` (src/job/facts/printer.ts). */
export const printerSchema = openObject({
  carriageDpi: measure('Dots along the carriage', 50, 10000, ' dpi'),
  feedDpi: measure('Dots along the feed', 50, 10000, ' dpi'),
  /** The edge of the page that is fed first; left out: whichever lays the finer grid across the ribs. */
  fedFirst: v.optional(v.picklist(['top', 'side'])),
});

export const printSchema = openObject({
  widthMm: measure('Print width', 5, 5000, ' mm'),
  heightMm: measure('Print height', 5, 20000, ' mm'),
  viewingDistanceMm: measure('Viewing distance', 50, 50000, ' mm'),
});

export const frameSchema = openObject({
  id: v.pipe(v.string(), v.nonEmpty()),
  name: v.string(),
  byteLength: v.number(),
  widthPx: wholeMeasure('Frame width', 1, 100000),
  heightPx: wholeMeasure('Frame height', 1, 100000),
  kind: v.string(),
  sceneLinear: v.boolean(),
  profile: v.optional(v.string()),
  meanLight: v.number(),
  /** Equal for frames with the same pixels; left out in older jobs. */
  fingerprint: v.optional(v.string()),
  /** Left out for frames that were rendered or taken. */
  made: v.optional(madeSchema),
  /** Left out: it lies as `placement` says. */
  place: v.optional(placeSchema),
  /** Left out: as bright and as white as it came. */
  light: v.optional(pictureLightSchema),
  /** A title that was typed here; left out: a picture that was added. */
  typed: v.optional(typedSchema),
});

export const placementSchema = openObject({
  mode: v.picklist(['fill', 'fit']),
  /** −1 … 1: the print's place in the room beside it in the frame. 0: in the middle. */
  shiftX: measure('Shift across', -1, 1, ''),
  shiftY: measure('Shift down', -1, 1, ''),
});

/** What a person is asked for once; until then the studio counts with numbers of its own. */
export const guessable = [
  'lensPitch',
  'lensThickness',
  'printer',
  'printWidth',
  'distance',
] as const;

const fields = openObject({
  version: v.literal(2),
  name: v.pipe(v.string(), v.maxLength(200)),
  /** The demo print that this is, as long as nobody has changed it; left out: a job of the person's own. */
  demo: v.optional(v.pipe(v.string(), v.maxLength(60))),
  /** The demo print whose frames this copy of it is still to get; left out once it has frames. */
  framesOf: v.optional(v.pipe(v.string(), v.maxLength(60))),
  /** The demo print that this began as a copy of: its numbers are the demo's, and nobody is asked for others. */
  copyOf: v.optional(v.pipe(v.string(), v.maxLength(60))),
  /** Numbers that the studio assumed and nobody has given yet (src/job/edits/guessed.ts); left out: none. */
  guessed: v.optional(v.pipe(v.array(v.picklist(guessable)), v.maxLength(guessable.length))),
  /** Planned by the trace (src/core/lens/traced.ts), or told of it; left out: kept by a studio that went by t / n. */
  traced: v.optional(v.literal(true)),
  lens: lensSchema,
  provedPitch: v.optional(provedPitchSchema),
  pitchStrip: v.optional(pitchStripSchema),
  ribs: v.picklist(['upright', 'lying']),
  printer: printerSchema,
  print: printSchema,
  viewSlots: wholeMeasure('View slots', 1, 200),
  columns: v.picklist(['blended', 'crisp']),
  placement: placementSchema,
  /** For scene-linear frames: linear light × 2^stops. */
  exposureStops: measure('Exposure', -20, 20, ' stops'),
  /** In order: the first is the leftmost camera (or the first moment). */
  frames: v.array(frameSchema),
  /**
   * The id of the frame that fills each view slot; length viewSlots; '' where the slot follows the even spread. Left
   * out: all slots follow the even spread.
   */
  slotsByHand: v.optional(v.array(v.string())),
  /** What a lens is looked for (Plan); left out: what the job says itself. */
  lensWish: v.optional(lensWishSchema),
  /** What the slots show; left out: frames with depth, spread evenly. */
  recipe: v.optional(recipeSchema),
  title: v.optional(titleSchema),
  /** γ: 1 (the default) is true depth; less flattens it. */
  depthGain: v.optional(measure('Depth gain', 0.001, 10, '')),
  /** Left out: the mean of adults, 63 mm. */
  eyesApartMm: v.optional(measure('Eyes apart', 40, 80, ' mm')),
  /**
   * Moves the key plane: things that move this many lenticules from frame to frame do not move on the print. 0 (the
   * default): the key plane of the frames.
   */
  keyShift: v.optional(measure('Key plane shift', -50, 50, ' ribs per view')),
  /** Softening beyond the sharp range: 1 to the published display bandwidth; 0 (the default): none. */
  soften: v.optional(measure('Soften', 0, 1, '')),
  depthMarks: v.optional(
    v.pipe(v.array(depthMarkSchema), v.maxLength(24, 'At most 24 things on the ruler.')),
  ),
  exactness: v.optional(exactnessSchema),
  stock: v.optional(stockSchema),
  /** Steps of mounting that are done, by id; left out: none. */
  mountTicks: v.optional(
    v.pipe(v.array(v.pipe(v.string(), v.maxLength(40))), v.maxLength(60, 'At most 60 ticks.')),
  ),
  /** What is seen of the print on the table; left out: nothing yet. */
  seeing: v.optional(seeingSchema),
  /** Prints made so far and what was seen of them, the oldest first. */
  trials: v.optional(
    v.pipe(v.array(trialSchema), v.maxLength(MOST_TRIALS, `At most ${MOST_TRIALS} trials.`)),
  ),
  rig: v.optional(rigSchema),
  /** A 3D scene seen through the rig; left out: none. */
  stage: v.optional(stageSchema),
  /** Paper and what is printed around the picture; left out: the sheet is woven by itself. */
  page: v.optional(pageSchema),
  /** Several prints on one lens sheet; left out: never used. */
  gang: v.optional(gangSchema),
  /** One print over several lens sheets; left out: it has one lens. */
  tiles: v.optional(tilesSchema),
  /** Which pieces of the print are mounted; left out: none. */
  printRun: v.optional(printRunSchema),
  /** The ghost wedge that was woven last; left out: none. */
  ghostWedge: v.optional(ghostWedgeSchema),
  /** Ghost removal; left out: none. */
  ghostTrim: v.optional(ghostTrimSchema),
  /** Contrast lowered where a flip ghosts; left out: nowhere. */
  ghostEase: v.optional(ghostEaseSchema),
  /** Left out: the print is for light that falls on it. */
  lamp: v.optional(lampSchema),
  /** Left out: the file is sRGB, and says so. */
  colour: v.optional(colourSchema),
});

/** Checks across fields. Each reports its error at the field where it is best corrected. */
export const jobSchema = v.pipe(
  fields,
  v.forward(
    v.partialCheck(
      [
        ['lens', 'pitchMm'],
        ['ribs'],
        ['printer', 'carriageDpi'],
        ['printer', 'feedDpi'],
        ['printer', 'fedFirst'],
      ],
      ({ lens, ribs, printer }) =>
        lens.pitchMm * gridOf({ ribs, printer }).acrossDpi >= MM_PER_INCH,
      'A rib must be at least one printed dot wide: choose a coarser lens or more dots across.',
    ),
    ['printer'],
  ),
  v.forward(
    v.partialCheck(
      [
        ['lens', 'pitchMm'],
        ['lens', 'radiusMm'],
      ],
      ({ lens }) => lens.radiusMm === undefined || lens.radiusMm >= lens.pitchMm / 2,
      'A rib is never wider than its circle: the rib radius must be at least half the lens pitch.',
    ),
    ['lens', 'radiusMm'],
  ),
  v.forward(
    v.partialCheck(
      [
        ['lens', 'pitchMm'],
        ['lens', 'thicknessMm'],
        ['lens', 'radiusMm'],
      ],
      ({ lens: { pitchMm, thicknessMm, radiusMm } }) =>
        radiusMm === undefined ||
        radiusMm < pitchMm / 2 ||
        radiusMm - Math.sqrt(radiusMm ** 2 - pitchMm ** 2 / 4) < thicknessMm,
      'Ribs of this pitch and radius are deeper than the sheet is thick: it must be thicker.',
    ),
    ['lens', 'thicknessMm'],
  ),
);

export type Job = v.InferOutput<typeof jobSchema>;
export type Frame = v.InferOutput<typeof frameSchema>;
export type Guessable = (typeof guessable)[number];
export type DepthMark = v.InferOutput<typeof depthMarkSchema>;
export type Exactness = v.InferOutput<typeof exactnessSchema>;

/** A job with the numbers of a common lens and printer, for a person who has none yet. */
export const newJob = (): Job => ({
  version: 2,
  name: 'Untitled print',
  traced: true,
  lens: { pitchMm: 25.4 / 60, thicknessMm: 0.84, index: 1.5685 },
  ribs: 'upright',
  printer: { carriageDpi: 720, feedDpi: 720 },
  print: { widthMm: 203.2, heightMm: 254, viewingDistanceMm: 400 },
  viewSlots: 12,
  columns: 'blended',
  placement: { mode: 'fill', shiftX: 0, shiftY: 0 },
  exposureStops: 0,
  frames: [],
});
