/** Weaving a pitch strip or another target: its rows drawn by workers and bound like a sheet's. */
import type { Outcome } from '../contract/errors.ts';
import type { Sink } from '../contract/sink.ts';
import type { StripWorker } from '../contract/strip.ts';
import type { SheetFileType } from '../core/encode/file-types.ts';
import type { SheetInfo } from '../core/encode/row-writer.ts';
import type { TargetSpec } from '../core/pitch/targets.ts';
import type { BindCall } from './bind.ts';
import { bindFile } from './bind.ts';
import { WorkerPool, poolSize } from './pool.ts';
import { spawnStripWorker } from './workers.ts';

const BAND_BYTES = 4 * 2 ** 20;
/** Rows of a strip are quickly drawn: more threads would only take longer to start. */
const MOST_AT_ONCE = 2;

const pool = new WorkerPool<StripWorker>(spawnStripWorker, {
  size: Math.min(MOST_AT_ONCE, poolSize()),
  depth: 2,
});

export interface StripRequest {
  readonly strip: TargetSpec;
  readonly fileType: SheetFileType;
  readonly info: SheetInfo;
  readonly bandBytes?: number;
}

/** Weaves the whole strip into the sink and closes it; aborts the sink otherwise. Throws StudioError. */
export const weaveStrip = (
  { strip, fileType, info, bandBytes = BAND_BYTES }: StripRequest,
  sink: Sink,
  call: BindCall,
): Promise<Outcome<{ byteLength: number }>> =>
  bindFile(
    {
      info,
      fileType,
      bandBytes,
      ahead: pool.size * 2 + 1,
      askRows: (rows, signal) =>
        pool.run((worker, id) => worker.writeRows({ ...rows, id, strip, fileType }), signal),
    },
    sink,
    call,
  );
