/**
 * What other tabs, and this tab's next page, know of a file that is being written: a lock that tabs share, and
 * its name in the session.
 */
import { hasLocks } from '../files/job-hold.ts';

/** Held, shared, by every tab that writes a file; a change of version takes it alone, until the pages go. */
const LOCK = 'tiltloom-weaving';
/** Name of the file under way, in this tab: reloads and crashes leave it, other tabs do not see it. */
const MARK = 'tiltloom-under-way';

/** Remembers the file under way for the case that the page goes; undefined once there is none. */
export const rememberWriting = (fileName: string | undefined) => {
  try {
    if (fileName === undefined) sessionStorage.removeItem(MARK);
    else sessionStorage.setItem(MARK, fileName);
  } catch {
    // Nothing can be remembered here; nothing depends on it.
  }
};

export const nothing = () => undefined;

/** Resolves with what gives the lock back, once this tab shares it; at once where there are no locks. */
export const shareWritingLock = (): Promise<() => void> =>
  new Promise((resolve) => {
    if (!hasLocks()) return resolve(nothing);
    navigator.locks
      .request(LOCK, { mode: 'shared' }, () => new Promise<void>((letGo) => resolve(letGo)))
      .catch(() => resolve(nothing));
  });

/**
 * Does this if no tab is writing a file; false where one is. No tab begins to write until it has ended.
 */
export const unlessAnyTabWrites = async (work: () => Promise<void>): Promise<boolean> => {
  if (!hasLocks()) {
    await work();
    return true;
  }
  return navigator.locks.request(LOCK, { ifAvailable: true }, async (lock) => {
    if (lock === null) return false;
    await work();
    return true;
  });
};

/** Once at the start: the file that this tab was writing when its page went. */
export const brokenOffFile = (): string | undefined => {
  try {
    const fileName = sessionStorage.getItem(MARK) ?? undefined;
    rememberWriting(undefined);
    return fileName;
  } catch {
    return undefined;
  }
};
