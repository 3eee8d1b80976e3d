/**
 * Copies of a job and all tabs share pictures. A picture is removed when no kept job names it; these locks make
 * sure that no job begins to name it meanwhile.
 */

const PAGE = 'tiltloom-frames';
const NAMES = 'tiltloom-picture-names';

const locks = (): LockManager | undefined =>
  typeof navigator !== 'undefined' && 'locks' in navigator ? navigator.locks : undefined;

/** Held by every page that may store pictures before a kept job names them. */
export interface Presence {
  /** Resolves when no other page sweeps; none can while this page is open. */
  enter(): Promise<void>;
  /** Runs the task if no other page has entered, then enters. Without locks it does nothing. */
  alone(task: () => Promise<void>): Promise<void>;
}

export const createPresence = (): Presence => {
  let entered: Promise<void> | undefined;

  const stay = (manager: LockManager): Promise<void> =>
    new Promise((resolve) => {
      manager
        .request(PAGE, { mode: 'shared' }, () => {
          resolve();
          // Held until the page closes.
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
      // This page may have stored pictures that no job names yet.
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

const locked = async <T>(mode: LockMode, task: () => Promise<T>): Promise<T> => {
  const manager = locks();
  return manager === undefined ? task() : manager.request(NAMES, { mode }, task);
};

/** Runs a task that makes a new job name pictures of another job. */
export const whileNaming = <T>(task: () => Promise<T>) => locked('shared', task);

/** Runs a task that removes pictures which no kept job names. */
export const whileRemoving = <T>(task: () => Promise<T>) => locked('exclusive', task);
