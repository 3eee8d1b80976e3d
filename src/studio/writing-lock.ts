/**
 * What other tabs, and this tab's next page, know of a file that is being written: a lock that tabs share, and
 * its name in the session.
 */
import { hasLocks } from '../files/job-hold.ts';

/** Every tab that writes a file shares this lock; an update takes it exclusively until the pages reload. */
const LOCK = 'tiltloom-weaving';
/** Session key with the name of the file being written: it survives reloads and crashes, in this tab only. */
const MARK = 'tiltloom-under-way';

/** Remembers the file under way for the case that the page goes; undefined once there is none. */
export const rememberWriting = (fileName: string | undefined) => {
  try {
    if (fileName === undefined) sessionStorage.removeItem(MARK);
    else sessionStorage.setItem(MARK, fileName);
  } catch {
    // Session storage is refused: only the note after a crash is lost.
  }
};

export const nothing = () => undefined;

/** Resolves with a function that releases the shared lock; at once in browsers without locks. */
export const shareWritingLock = (): Promise<() => void> =>
  new Promise((resolve) => {
    if (!hasLocks()) return resolve(nothing);
    navigator.locks
      .request(LOCK, { mode: 'shared' }, () => new Promise<void>((letGo) => resolve(letGo)))
      .catch(() => resolve(nothing));
  });

/**
 * Runs this if no tab is writing a file; else returns false. No tab can begin to write until it ends.
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
