/** Where a file is written: a file that the person chose, the private disk, or else memory. */
import type { BandBytes, BandFacts } from '../core/encode/row-writer.ts';

export interface Sink {
  /**
   * The first bands of the file, which an earlier weave of the same file left here: they follow the head by
   * themselves, and are not written again. Left out: none.
   */
  readonly begun?: readonly BandFacts[];
  /** Resolves when the sink can take more: wait for it, so that memory holds only a few bands. */
  write(bytes: Uint8Array<ArrayBuffer>): Promise<void>;
  /** The same for a whole band, where the sink keeps it to go on from. Left out: a band is bytes like others. */
  writeBand?(band: BandBytes, rows: number): Promise<void>;
  /** Replaces bytes that were written before. Only `close` may follow. */
  patch(at: number, bytes: Uint8Array<ArrayBuffer>): Promise<void>;
  /** Makes the file whole and visible. */
  close(): Promise<void>;
  /** Discards what was written, but for bands that are kept to go on from. */
  abort(): Promise<void>;
}
