/** How far a weave is, and how long the rest will take. */

const REPORT_EVERY_MS = 500;
/** The first rows include the start of the workers, so an estimate from them would be wrong. */
const GUESS_AFTER_MS = 700;

export interface Progress {
  readonly rowsDone: number;
  readonly rows: number;
  /** Undefined until it can be estimated. */
  readonly secondsLeft: number | undefined;
}

export const createProgress = (rows: number, tell: (progress: Progress) => void) => {
  let first: { readonly at: number; readonly rowsDone: number } | undefined;
  let reportedAt = 0;
  return (rowsDone: number): void => {
    const now = performance.now();
    // The time before the first band (preparing frames) does not count.
    first ??= { at: now, rowsDone };
    if (now - reportedAt < REPORT_EVERY_MS && rowsDone < rows) return;
    reportedAt = now;
    const elapsed = now - first.at;
    const perRow = elapsed / (rowsDone - first.rowsDone);
    const secondsLeft = elapsed < GUESS_AFTER_MS ? undefined : (perRow * (rows - rowsDone)) / 1000;
    tell({ rowsDone, rows, secondsLeft });
  };
};
