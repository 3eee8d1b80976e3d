/** The part of the view that is remembered between visits. */
import * as v from 'valibot';
import { sheetFileTypes } from '../core/encode/file-types.ts';
import type { SheetFileType } from '../core/encode/file-types.ts';
import { shelfNames } from '../materials/shelves.ts';

const share = v.pipe(v.number(), v.minValue(0), v.maxValue(1));
const counts = v.pipe(v.array(v.pipe(v.number(), v.finite(), v.gtValue(0))), v.readonly());

const fields = {
  units: v.picklist(['mm', 'in']),
  theme: v.picklist(['system', 'light', 'dark']),
  /** The unit in which the lens pitch was last typed. */
  pitchUnit: v.picklist(['lpi', 'mm']),
  /** Middle of the loupe, as a share of the sheet. */
  loupeX: share,
  loupeY: share,
  saveTo: v.picklist(['private-disk', 'chosen-file']),
  fileType: v.picklist(Object.keys(sheetFileTypes) as SheetFileType[]),
  /** The bench that was open last; empty before the first visit. */
  lastBench: v.string(),
  /** Follows prices, in the person's own letters; empty for bare numbers. */
  currencyMark: v.string(),
  openShelf: v.picklist(shelfNames),
  /** What the person added to the table of lenses and printers, LPI and dpi. */
  ownLensCounts: counts,
  ownPrinterGrids: counts,
  pairsShown: v.picklist(['lenses', 'printers', 'all']),
  /** Whether made frames show where they were filled. */
  showFilled: v.boolean(),
  /** Whether the line that says what comes next is folded away. */
  wayFolded: v.boolean(),
  /** Whether the question for the person's own lens and printer is put off. */
  askFolded: v.boolean(),
  /** By bench, the part of it that is shown; a bench that is not named shows its first. */
  partsShown: v.pipe(v.record(v.string(), v.string()), v.readonly()),
  /** By job id, oldest first: a digest of the job as it was last woven. */
  wovenMarks: v.pipe(v.record(v.string(), v.string()), v.readonly()),
  /** Cautions that were read and folded, each as the job and the bench it stood on. */
  cautionsRead: v.pipe(v.array(v.string()), v.readonly()),
  /** Where a phone reaches the studio, as typed; empty until a person has said so. */
  phoneReaches: v.pipe(v.string(), v.maxLength(300)),
  /** A pair suits if it has a dot for each of this many frames. */
  framesWanted: v.pipe(v.number(), v.integer(), v.minValue(1)),
} satisfies Record<string, v.GenericSchema>;

export type KeptView = {
  readonly [Name in keyof typeof fields]: v.InferOutput<(typeof fields)[Name]>;
};

export type WovenMarks = KeptView['wovenMarks'];

/** The remembered fields that are valid; everything else is ignored. */
export const keptView = (stored: unknown): Partial<KeptView> =>
  Object.fromEntries(
    Object.entries(fields).flatMap(([name, field]) => {
      const value = (stored as Record<string, unknown> | null | undefined)?.[name];
      const read = v.safeParse(field, value);
      return read.success ? [[name, read.output]] : [];
    }),
  );
