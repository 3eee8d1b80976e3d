/** Carries work that pauses now and then through to its end. */
export const run = <T>(work: Generator<undefined, T>): T => {
  for (;;) {
    const step = work.next();
    if (step.done === true) return step.value;
  }
};
