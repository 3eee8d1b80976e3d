/** What the page asks of a strip worker: bands of the file of a pitch strip or another target. */
import type { BandBytes } from '../core/encode/row-writer.ts';
import type { TargetSpec } from '../core/pitch/targets.ts';
import type { Reply } from './errors.ts';
import type { BandFile, RowRange } from './weave.ts';

export interface StripRowsRequest extends RowRange, BandFile {
  readonly id: string;
  readonly strip: TargetSpec;
}

export interface StripWorker {
  /** A band of the strip, as `WeaveWorker.weaveBand` gives one of a sheet. */
  writeRows(request: StripRowsRequest): Promise<Reply<BandBytes>>;
  cancel(id: string): void;
}
