/** Draws bands of the pitch strip and the other targets. */
import type { StripRowsRequest, StripWorker } from '../src/contract/strip.ts';
import type { BandBytes } from '../src/core/encode/row-writer.ts';
import { targetSource } from '../src/core/pitch/targets.ts';
import type { Checkpoint } from './answer.ts';
import { Calls } from './answer.ts';
import { drawBand } from './draw-band.ts';
import { lastMade } from './remembered.ts';

const sourceFor = lastMade(targetSource);

const writeRows = (request: StripRowsRequest, checkpoint: Checkpoint): Promise<BandBytes> => {
  const { strip } = request;
  const rowsOf = sourceFor(strip);
  return drawBand(
    { ...request, ribs: strip.ribs, draw: (rows) => rowsOf(rows.firstRow, rows.rowCount) },
    checkpoint,
  );
};

export const createStripService = (): StripWorker => {
  const calls = new Calls();
  return {
    writeRows: calls.method(writeRows, ({ bytes }) => [bytes.buffer]),
    cancel: calls.cancel,
  };
};
