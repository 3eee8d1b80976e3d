/** Draws a band of rows and packs it as the file type wants it. */
import type { BandFile, RowRange } from '../src/contract/weave.ts';
import type { BandBytes } from '../src/core/encode/row-writer.ts';
import { convertDots } from '../src/core/colour/icc/device-table.ts';
import { mirroredRows } from '../src/core/sheet/mirrored.ts';
import { sheetWriters } from '../src/core/encode/sheet-writers.ts';
import type { SheetSpec } from '../src/core/weave/sheet-spec.ts';
import type { Checkpoint } from './answer.ts';
import { deviceTableOf } from './device-tables.ts';

interface Drawing extends RowRange, BandFile {
  readonly ribs: SheetSpec['ribs'];
  /** Row-major RGB, 8 bit, sRGB-encoded. */
  readonly draw: (rows: RowRange) => Promise<Uint8Array> | Uint8Array;
}

export const drawBand = async (
  { fileType, mirrored, convert, firstRow, rowCount, ribs, draw }: Drawing,
  checkpoint: Checkpoint,
): Promise<BandBytes> => {
  const writer = sheetWriters[fileType];
  // A filter may need the row above, so a band below the first one draws that row too.
  const above = firstRow > 0 ? writer.rowsAbove : 0;
  const seen = await draw({ firstRow: firstRow - above, rowCount: rowCount + above });
  await checkpoint();
  const seenBytes = seen.length / (rowCount + above);
  const turned = mirrored === true ? mirroredRows(seen, seenBytes) : seen;
  const table = convert && (await deviceTableOf(convert));
  const drawn = table === undefined ? turned : convertDots(turned, table);
  const rowBytes = drawn.length / (rowCount + above);
  return writer.wrapBand({
    rows: drawn.subarray(above * rowBytes),
    rowBytes,
    ...(table && { channels: table.channels }),
    above: above === 1 ? drawn.subarray(0, rowBytes) : null,
    ribs,
  });
};
