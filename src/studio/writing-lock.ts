/**
 * Tells other tabs, and this tab's next page, that a file is being written: by a lock that tabs share, and by
 * the file's name in the session.
 */
import { hasLocks } from '../files/job-hold.ts';
import { newId } from '../files/new-id.ts';

/** Every tab that writes a file shares this lock; an update takes it exclusively until the pages reload. */
const LOCK = 'tiltloom-weaving';
/** Session key of the file being written: it survives reloads and crashes, in this tab and in copies of it. */
const MARK = 'tiltloom-under-way';

export const nothing = (): void => undefined;

/** Browser-wide: number of the last mark that was told of. */
const TOLD = 'tiltloom-under-way-told';

/** A file under way, and the page that writes it. */
interface Mark {
  /** Of this mark; a copy of the tab copies it too. */
  readonly id: string;
  readonly fileName: string;
  readonly jobId: string;
  /** Of a demo print, whose job id is another at each opening. */
  readonly demo?: string | undefined;
}

const lockOf = ({ id }: Pick<Mark, 'id'>) => `${LOCK}-${id}`;

/** Held by the page that writes, as long as it lives: its end is the browser's word that the page is gone. */
const holdMark = (mark: Mark): (() => void) => {
  if (!hasLocks()) return nothing;
  let letGo: () => void = nothing;
  const gone = new Promise<void>((resolve) => (letGo = resolve));
  navigator.locks.request(lockOf(mark), () => gone).catch(nothing);
  return letGo;
};

/** Remembers files under way for the case that the page goes. */
export const createWritingMark = () => {
  let letGo = nothing;
  return {
    /** In the place of the one before; undefined once there is none. */
    set: (file: Omit<Mark, 'id'> | undefined): void => {
      letGo();
      letGo = nothing;
      try {
        if (file === undefined) return sessionStorage.removeItem(MARK);
        const mark: Mark = { id: newId(), ...file };
        letGo = holdMark(mark);
        sessionStorage.setItem(MARK, JSON.stringify(mark));
      } catch {
        // Session storage is refused: only the note after a crash is lost.
      }
    },
  };
};

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

/** A page that was reloaded may let go of its locks a moment after the next has begun. */
const GONE_MS = 3000;

/** Whether the page that writes it is there still: this tab is a copy of that page's. */
const isWrittenStill = async (mark: Mark): Promise<boolean> => {
  if (!hasLocks()) return false;
  const signal = AbortSignal.timeout(GONE_MS);
  return navigator.locks.request(lockOf(mark), { signal }, () => false).catch(() => true);
};

/**
 * Once at the start, and once in all tabs: the file that this tab was writing when its page went. Undefined where
 * it was of another job (or demo print) than this one, or is written on by the tab that this one was copied from.
 */
export const brokenOffFile = async (jobId: string, demo?: string): Promise<string | undefined> => {
  try {
    const kept = sessionStorage.getItem(MARK);
    sessionStorage.removeItem(MARK);
    if (kept === null) return undefined;
    const mark = JSON.parse(kept) as Mark;
    const isOfIt = mark.jobId === jobId || (demo !== undefined && mark.demo === demo);
    if (!isOfIt || localStorage.getItem(TOLD) === mark.id) return undefined;
    if (await isWrittenStill(mark)) return undefined;
    localStorage.setItem(TOLD, mark.id);
    return mark.fileName;
  } catch {
    return undefined;
  }
};
