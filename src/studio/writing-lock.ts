/**
 * Tells other tabs, and this tab's next page, that a file is being written: by a lock that tabs share, and by
 * the file's name in the session.
 */
import { hasLocks } from '../files/job-hold.ts';

/** Every tab that writes a file shares this lock; an update takes it exclusively until the pages reload. */
const LOCK = 'tiltloom-weaving';
/** Session key with the name of the file being written: it survives reloads and crashes, in this tab only. */
const MARK = 'tiltloom-under-way';

/** Remembers the file under way in case the page closes; undefined once there is none. */
export const rememberWriting = (fileName: string | undefined) => {
  try {
    if (fileName === undefined) sessionStorage.removeItem(MARK);
    else sessionStorage.setItem(MARK, fileName);
  } catch {
    // Without session storage there is only no message after a crash.
  }
};

export const nothing = () => undefined;

/** Resolves with a function that releases the shared lock. Browsers without locks resolve at once. */
export const shareWritingLock = (): Promise<() => void> =>
  new Promise((resolve) => {
    if (!hasLocks()) return resolve(nothing);
    navigator.locks
      .request(LOCK, { mode: 'shared' }, () => new Promise<void>((letGo) => resolve(letGo)))
      .catch(() => resolve(nothing));
  });

/** Runs this if no tab is writing a file; else returns false. No tab can begin to write until it ends. */
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

/** The file that this tab was writing when its last page closed. Forgets it, so ask once, at the start. */
export const brokenOffFile = (): string | undefined => {
  try {
    const fileName = sessionStorage.getItem(MARK) ?? undefined;
    rememberWriting(undefined);
    return fileName;
  } catch {
    return undefined;
  }
};
