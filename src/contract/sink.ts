/** Where a sheet is written: a file the person chose, the private disk, or memory at the last. */

export interface Sink {
  /** Resolves when the sink can take more: wait for it, so that memory stays at a few bands. */
  write(bytes: Uint8Array<ArrayBuffer>): Promise<void>;
  /** Writes over bytes that were written before; only once nothing more follows but `close`. */
  patch(at: number, bytes: Uint8Array<ArrayBuffer>): Promise<void>;
  /** Makes the file whole and visible. Until then nobody can take it for a finished sheet. */
  close(): Promise<void>;
  /** Throws away what was written. */
  abort(): Promise<void>;
}
