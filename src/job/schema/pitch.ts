/** What a job keeps of its pitch: the chosen strip, the woven strip, and what was read. */
import * as v from 'valibot';
import { MOST_BANDS } from '../../core/pitch/strip.ts';
import { barsSchema } from './bar.ts';
import { measure, wholeMeasure } from './measures.ts';
import { openObject } from './open-object.ts';

const lines = (what: string) => measure(what, 1, 1000, ' LPI');
const direction = v.picklist(['upright', 'lying']);
/** The printer's axis across the ribs; left out in older jobs: that of a page with its top edge first. */
const axis = v.optional(v.picklist(['carriage', 'feed']));

/** The result of reading a strip. Until then the pitch is nominal. */
export const provedPitchSchema = openObject({
  viewingPitchMm: measure('Proved pitch', 0.05, 5, ' mm'),
  readFromMm: measure('Reading distance', 50, 50000, ' mm'),
  /** `print`: read from a failed print, not from a strip. */
  method: v.optional(v.picklist(['band', 'fringes', 'photo', 'print'])),
  /** Two standard deviations. */
  plusMinusLpi: v.optional(measure('Uncertainty', 0, 10, ' LPI')),
  /** ISO 8601 date. */
  readOn: v.optional(v.pipe(v.string(), v.isoDate())),
  /** The kind of paper, in the person's own words. */
  paper: v.optional(v.pipe(v.string(), v.maxLength(80))),
  /** How the ribs run on the strip. */
  direction: v.optional(direction),
  axis,
  /** How the lens is turned on the strip in the photo, clockwise positive, and two standard deviations. */
  skewDeg: v.optional(measure('Skew', -45, 45, '°')),
  skewPlusMinusDeg: v.optional(measure('Uncertainty of the skew', 0, 45, '°')),
  /** The strip or print that it was read from, measured by a ruler: the pitch contains its stretch. */
  bars: v.optional(barsSchema),
  /** The studio took it from an earlier strip for the same lens, printer setting and direction. */
  recalled: v.optional(v.boolean()),
});

/** The strip that was woven last. A reading is of this strip, even if the fields have changed. */
const wovenStripSchema = openObject({
  bandsLpi: v.pipe(v.array(lines('Band')), v.minLength(3), v.maxLength(MOST_BANDS)),
  acrossMm: measure('Strip width', 5, 5000, ' mm'),
  readFromMm: measure('Reading distance', 50, 50000, ' mm'),
  barAcrossMm: measure('Bar across', 1, 200, ' mm'),
  barAlongMm: measure('Bar along', 1, 200, ' mm'),
  wovenOn: v.pipe(v.string(), v.isoDate()),
  /** No strip was woven: this one follows from the job's fields on the day `wovenOn`, when it was read. */
  assumed: v.optional(v.boolean()),
  acrossDpi: measure('Dots across', 50, 10000, ' dpi'),
  /** Left out in strips woven before photos could be read. */
  alongDpi: v.optional(measure('Dots along', 50, 10000, ' dpi')),
  barsIn: v.optional(v.picklist(['mm', 'in'])),
  ribs: direction,
  axis,
  lensPitchMm: measure('Lens pitch', 0.05, 5, ' mm'),
});

/** The studio advises what is left out, or it is not known yet. */
export const pitchStripSchema = openObject({
  centreLpi: v.optional(lines('Strip centre')),
  spreadLpi: v.optional(measure('Strip spread', 0.002, 100, ' LPI')),
  bands: v.optional(
    v.pipe(
      wholeMeasure('Bands', 3, MOST_BANDS),
      v.check((bands) => bands % 2 === 1, 'Bands must be an odd number: one stands at the centre.'),
    ),
  ),
  readFromMm: v.optional(measure('Reading distance', 50, 50000, ' mm')),
  paper: v.optional(v.picklist(['a4', 'a3', 'letter', 'own'])),
  /** True: landscape. */
  onItsSide: v.optional(v.boolean()),
  paperWidthMm: v.optional(measure('Paper width', 40, 5000, ' mm')),
  paperHeightMm: v.optional(measure('Paper height', 40, 20000, ' mm')),
  marginMm: v.optional(measure('Printer margin', 0, 60, ' mm')),
  paperKind: v.optional(v.pipe(v.string(), v.maxLength(80))),
  woven: v.optional(wovenStripSchema),
  measuredAcrossMm: v.optional(measure('Bar across', 1, 1000, ' mm')),
  measuredAlongMm: v.optional(measure('Bar along', 1, 1000, ' mm')),
  /** In half bands: 0 is the first band, 1 lies between it and the second. */
  bestPlace: v.optional(wholeMeasure('Best band', 0, 2 * MOST_BANDS)),
  /** The typed count for each band; '' if nothing was counted. */
  counts: v.optional(v.array(v.pipe(v.string(), v.maxLength(20)))),
  /** The way of reading that the person chose to go by; left out: the most exact. */
  readBy: v.optional(v.picklist(['band', 'fringes', 'photo'])),
});

export type PitchStrip = v.InferOutput<typeof pitchStripSchema>;
export type WovenStrip = v.InferOutput<typeof wovenStripSchema>;
