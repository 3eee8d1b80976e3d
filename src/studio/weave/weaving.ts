/**
 * What must not be broken off: while anything is woven, leaving the page is asked about, other tabs are told
 * to wait with a change of version, and a page that goes all the same is remembered for the next visit.
 */

/** Held by every tab that weaves, shared; a change of version takes it alone, until the pages go. */
const LOCK = 'tiltloom-weaving';
/** Name of the file under way, in this tab: reloads and crashes leave it, other tabs do not see it. */
const MARK = 'tiltloom-under-way';

let running = 0;

const ask = (event: BeforeUnloadEvent) => event.preventDefault();

const mark = (fileName: string | undefined) => {
  try {
    if (fileName === undefined) sessionStorage.removeItem(MARK);
    else sessionStorage.setItem(MARK, fileName);
  } catch {
    // Nothing can be remembered here; nothing depends on it.
  }
};

const nothing = () => undefined;

/** Resolves with what gives the lock back, once this tab shares it; at once where there are no locks. */
const shareLock = (): Promise<() => void> =>
  new Promise((resolve) => {
    if (!('locks' in navigator)) return resolve(nothing);
    navigator.locks
      .request(LOCK, { mode: 'shared' }, () => new Promise<void>((letGo) => resolve(letGo)))
      .catch(() => resolve(nothing));
  });

/**
 * Runs the task as something that must not be broken off. While the tabs change over to a newer version it is
 * not begun: the page goes first.
 */
export const whileWeaving = async <T>(fileName: string, task: () => Promise<T>): Promise<T> => {
  const letGo = await shareLock();
  running += 1;
  if (running === 1) addEventListener('beforeunload', ask);
  mark(fileName);
  try {
    return await task();
  } finally {
    letGo();
    running -= 1;
    if (running === 0) {
      removeEventListener('beforeunload', ask);
      mark(undefined);
    }
  }
};

/** Whether anything is woven in this very tab. */
export const isWeaving = (): boolean => running > 0;

/**
 * Runs the task if nothing is being woven in any tab; false where something is. Nothing is begun in any tab
 * until the task ends.
 */
export const unlessWeaving = async (task: () => Promise<void>): Promise<boolean> => {
  if (isWeaving()) return false;
  if (!('locks' in navigator)) {
    await task();
    return true;
  }
  return navigator.locks.request(LOCK, { ifAvailable: true }, async (lock) => {
    if (lock === null) return false;
    await task();
    return true;
  });
};

/** Once at the start: the file that this tab was weaving when its page went. */
export const brokenOff = (): string | undefined => {
  try {
    const fileName = sessionStorage.getItem(MARK) ?? undefined;
    mark(undefined);
    return fileName;
  } catch {
    return undefined;
  }
};
