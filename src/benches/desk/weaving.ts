/**
 * What must not be broken off: while anything is woven, leaving the page is asked about, other tabs are told
 * to wait with a change of version, and a page that goes all the same is remembered for the next visit.
 */

/** Held by every tab that weaves, shared; a change of version takes it alone. */
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

/** Runs the task as something that must not be broken off. */
export const whileWeaving = async <T>(fileName: string, task: () => Promise<T>): Promise<T> => {
  running += 1;
  if (running === 1) addEventListener('beforeunload', ask);
  mark(fileName);
  let letGo = () => {};
  const held = new Promise<void>((resolve) => (letGo = resolve));
  if ('locks' in navigator) void navigator.locks.request(LOCK, { mode: 'shared' }, () => held);
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

/** Runs the task if nothing is being woven in any tab; false where something is. */
export const unlessWeaving = async (task: () => void): Promise<boolean> => {
  if (running > 0) return false;
  if (!('locks' in navigator)) {
    task();
    return true;
  }
  return navigator.locks.request(LOCK, { ifAvailable: true }, (lock) => {
    if (lock === null) return false;
    task();
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
