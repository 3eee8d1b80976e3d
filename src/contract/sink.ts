/** Where a file is written: a file that the person chose, the private disk, or else memory. */

export interface Sink {
  /** Resolves when the sink can take more: wait for it, so that memory holds only a few bands. */
  write(bytes: Uint8Array<ArrayBuffer>): Promise<void>;
  /** Replaces bytes that were written before. Only `close` may follow. */
  patch(at: number, bytes: Uint8Array<ArrayBuffer>): Promise<void>;
  /** Makes the file whole and visible. */
  close(): Promise<void>;
  /** Discards what was written. */
  abort(): Promise<void>;
}
