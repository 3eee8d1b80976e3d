/** The paper a sheet is printed on, and what is printed around the picture. */
import * as v from 'valibot';
import type { SheetPaperName } from '../../core/sheet/papers.ts';
import { sheetPapers } from '../../core/sheet/papers.ts';
import { measure } from './measures.ts';
import { openObject } from './open-object.ts';

export const paperNames = [
  ...(Object.keys(sheetPapers) as SheetPaperName[]),
  'roll',
  'own',
] as const;

export const pageSchema = openObject({
  /** False: the sheet is woven without a page, and these settings are not used. */
  on: v.boolean(),
  paper: v.picklist(paperNames),
  onItsSide: v.optional(v.boolean()),
  /** For paper of one's own size. The width is also that of a roll, whose length follows the print. */
  paperWidthMm: v.optional(measure('Paper width', 50, 6000, ' mm')),
  paperHeightMm: v.optional(measure('Paper height', 50, 21000, ' mm')),
  /** The printer margin at each edge. */
  marginsMm: openObject({
    left: measure('Left margin', 0, 200, ' mm'),
    top: measure('Top margin', 0, 200, ' mm'),
    right: measure('Right margin', 0, 200, ' mm'),
    bottom: measure('Bottom margin', 0, 200, ' mm'),
  }),
  /** The trim's top left corner, from that of the paper; left out: in the middle. */
  place: v.optional(
    openObject({
      leftMm: measure('Print from the left', -5000, 6000, ' mm'),
      topMm: measure('Print from the top', -20000, 21000, ' mm'),
    }),
  ),
  bleedMm: measure('Bleed', 0, 50, ' mm'),
  /** Leaves the bleed white where frames end; left out: their edge is mirrored into it. */
  whiteBleed: v.optional(v.boolean()),
  /** The file is mirrored left to right, for film that is laid from behind; left out: not. Holds without a page too. */
  mirrored: v.optional(v.literal(true)),
  rails: v.boolean(),
  marks: v.boolean(),
  label: v.boolean(),
  /** A line of the label in the person's own words, such as an edition; left out: none. */
  edition: v.optional(v.pipe(v.string(), v.maxLength(120, 'At most 120 letters.'))),
  /** Numbers the copies on the label, as the print run counts them; left out: not. */
  numbered: v.optional(v.literal(true)),
  /** A line to sign and number by hand, below the label; left out: none. */
  signLine: v.optional(v.literal(true)),
  bar: v.boolean(),
});

export type Page = v.InferOutput<typeof pageSchema>;
