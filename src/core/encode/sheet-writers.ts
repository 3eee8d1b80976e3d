/** The writer of each file type. */
import type { SheetFileType } from './file-types.ts';
import { pdfWriter } from './pdf.ts';
import { pngWriter } from './png.ts';
import type { RowWriter } from './row-writer.ts';
import { tiffWriter } from './tiff.ts';

export const sheetWriters: Readonly<Record<SheetFileType, RowWriter>> = {
  png: pngWriter,
  tiff: tiffWriter,
  pdf: pdfWriter,
};
