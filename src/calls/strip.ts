/** Weaves a pitch strip or another target into a file. */
import type { Outcome } from '../contract/errors.ts';
import type { Sink } from '../contract/sink.ts';
import type { StripWorker } from '../contract/strip.ts';
import type { TargetSpec } from '../core/pitch/targets.ts';
import type { BindCall, FileToBind } from './bind.ts';
import { CALLS_PER_WORKER, bindFile } from './bind.ts';
import { WorkerPool, poolSize } from './pool.ts';
import { spawnStripWorker } from './workers.ts';

const BAND_BYTES = 4 * 2 ** 20;
/** Drawing a strip's rows takes little time: more threads would only take longer to start. */
const MOST_AT_ONCE = 2;

const pool = new WorkerPool<StripWorker>(spawnStripWorker, {
  size: Math.min(MOST_AT_ONCE, poolSize()),
  depth: CALLS_PER_WORKER,
});

/** As `bindFile`. */
export const weaveStrip = (
  { strip, ...file }: FileToBind & { readonly strip: TargetSpec },
  sink: Sink,
  call: BindCall,
): Promise<Outcome<{ byteLength: number }>> =>
  bindFile(
    pool,
    (worker, band) => worker.writeRows({ ...band, strip }),
    { bandBytes: BAND_BYTES, ...file },
    sink,
    call,
  );
