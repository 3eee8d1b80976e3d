/**
 * Pictures are shared: by copies of a job, and by all tabs. A picture is removed when no kept job names
 * it; these locks see to it that none comes to be named while that is being looked at.
 */

const PAGE = 'tiltloom-frames';
const NAMES = 'tiltloom-picture-names';

const locks = (): LockManager | undefined =>
  typeof navigator !== 'undefined' && 'locks' in navigator ? navigator.locks : undefined;

/** Held by every page that may store pictures before a kept job names them. */
export interface Presence {
  /** Resolves when no other page sweeps, nor will while this one lives. */
  enter(): Promise<void>;
  /** Runs the task if no other page has entered, and enters. Not at all where nobody can tell. */
  alone(task: () => Promise<void>): Promise<void>;
}

export const createPresence = (): Presence => {
  let entered: Promise<void> | undefined;

  const stay = (manager: LockManager): Promise<void> =>
    new Promise((resolve) => {
      manager
        .request(PAGE, { mode: 'shared' }, () => {
          resolve();
          // Held until the page goes.
          return new Promise(() => undefined);
        })
        .catch(resolve);
    });

  return {
    enter: () => {
      const manager = locks();
      return (entered ??= manager === undefined ? Promise.resolve() : stay(manager));
    },
    alone: async (task) => {
      const manager = locks();
      // A page that has entered may itself have laid down what nobody names yet.
      if (manager === undefined || entered !== undefined) return;
      const asked = manager.request(PAGE, { ifAvailable: true }, async (lock) => {
        if (lock !== null) await task();
      });
      entered = asked.then(
        () => stay(manager),
        () => stay(manager),
      );
      await asked;
    },
  };
};

/** While a new job comes to name pictures that another job has. */
export const whileNaming = async <T>(task: () => Promise<T>): Promise<T> => {
  const manager = locks();
  return manager === undefined ? task() : manager.request(NAMES, { mode: 'shared' }, task);
};

/** While pictures are removed that no kept job names. */
export const whileRemoving = async <T>(task: () => Promise<T>): Promise<T> => {
  const manager = locks();
  return manager === undefined ? task() : manager.request(NAMES, task);
};
