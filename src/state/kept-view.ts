/** Reads back the remembered view. A field that is no longer valid takes its default; the others stay. */
import * as v from 'valibot';
import { sheetFileTypes } from '../core/encode/file-types.ts';
import type { SheetFileType } from '../core/encode/file-types.ts';
import { shelfNames } from '../materials/shelves.ts';

const share = v.pipe(v.number(), v.minValue(0), v.maxValue(1));
const counts = v.array(v.pipe(v.number(), v.finite(), v.gtValue(0)));

const fields = {
  units: v.picklist(['mm', 'in']),
  theme: v.picklist(['system', 'light', 'dark']),
  pitchUnit: v.picklist(['lpi', 'mm']),
  loupeX: share,
  loupeY: share,
  saveTo: v.picklist(['private-disk', 'chosen-file']),
  fileType: v.picklist(Object.keys(sheetFileTypes) as SheetFileType[]),
  lastBench: v.string(),
  currencyMark: v.string(),
  openShelf: v.picklist(shelfNames),
  ownLensCounts: counts,
  ownPrinterGrids: counts,
  pairsShown: v.picklist(['lenses', 'printers', 'all']),
  showFilled: v.boolean(),
  framesWanted: v.pipe(v.number(), v.integer(), v.minValue(1)),
} satisfies Record<string, v.GenericSchema>;

/** The remembered settings that are valid; anything else is ignored. */
export const keptView = (
  stored: unknown,
): Partial<{ [Name in keyof typeof fields]: v.InferOutput<(typeof fields)[Name]> }> =>
  Object.fromEntries(
    Object.entries(fields).flatMap(([name, field]) => {
      const value = (stored as Record<string, unknown> | null | undefined)?.[name];
      const read = v.safeParse(field, value);
      return read.success ? [[name, read.output]] : [];
    }),
  );
