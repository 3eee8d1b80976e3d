/** What every worker answers besides its work. */
export interface AnyWorker {
  /** Stops a call. An id that it does not know is nothing to it, and a way to ask whether it is there. */
  cancel(id: string): void;
  /**
   * Takes the lock of this name and keeps it as long as the worker lives; whoever waits for it hears of the
   * worker's end. Resolves once it is held, with false where it cannot be.
   */
  holdLock(name: string): Promise<boolean>;
}
