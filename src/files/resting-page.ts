/** Long work on the page lets it draw and answer in between. */

const WORK_MS = 30;

/** @returns a function to be awaited between steps: it lets the page have its turn when the last was a while ago. */
export const restingPage = (): (() => Promise<void>) => {
  let rested = performance.now();
  return async () => {
    if (performance.now() - rested < WORK_MS) return;
    await new Promise<void>((resolve) => setTimeout(resolve));
    rested = performance.now();
  };
};
