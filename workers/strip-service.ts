/** Draws the pitch strip and the other targets, some rows at a time, into finished bytes. */
import type { StripRowsRequest, StripWorker } from '../src/contract/strip.ts';
import type { BandBytes } from '../src/core/encode/row-writer.ts';
import { sheetWriters } from '../src/core/encode/sheet-writers.ts';
import type { RowSource } from '../src/core/pitch/painted-rows.ts';
import type { TargetSpec } from '../src/core/pitch/targets.ts';
import { targetSource } from '../src/core/pitch/targets.ts';
import { Calls } from './answer.ts';

/** The source of the last strip: every part of a strip asks for the same one. */
let last: { key: string; source: RowSource } | undefined;
const sourceFor = (strip: TargetSpec): RowSource => {
  const key = JSON.stringify(strip);
  if (last?.key !== key) last = { key, source: targetSource(strip) };
  return last.source;
};

const writeRows = async (
  { strip, fileType, firstRow, rowCount }: StripRowsRequest,
  checkpoint: () => Promise<void>,
): Promise<BandBytes> => {
  const writer = sheetWriters[fileType];
  const above = firstRow > 0 ? writer.rowsAbove : 0;
  const drawn = sourceFor(strip)(firstRow - above, rowCount + above);
  await checkpoint();
  const rowBytes = drawn.length / (rowCount + above);
  return writer.wrapBand({
    rows: drawn.subarray(above * rowBytes),
    rowBytes,
    above: above === 1 ? drawn.subarray(0, rowBytes) : null,
    ribs: strip.ribs,
  });
};

export const createStripService = (): StripWorker => {
  const calls = new Calls();
  return {
    writeRows: (request) =>
      calls.run(
        request.id,
        (checkpoint) => writeRows(request, checkpoint),
        (rows) => [rows.bytes.buffer],
      ),
    cancel: (id) => calls.cancel(id),
  };
};
