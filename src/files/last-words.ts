/**
 * The change that is being written. A database write is lost when its page closes, so
 * the change is also left where writing is done at once, until it is known to be on the disk; the next
 * page that holds the job takes it from there.
 */

export interface LastWords {
  /** Number of the entry they come after. */
  readonly after: number;
  readonly label: string;
  /** A document as `restoreJob` reads it. */
  readonly job: unknown;
}

const prefix = 'tiltloom-job-last-words';
const keyOf = (id: string) => `${prefix}:${id}`;

export const leaveLastWords = (id: string, words: LastWords): void => {
  try {
    localStorage.setItem(keyOf(id), JSON.stringify(words));
  } catch {
    // No room or no permission here: the database write may still succeed.
  }
};

export const forgetLastWords = (id: string): void => {
  try {
    localStorage.removeItem(keyOf(id));
  } catch {
    // If it cannot be read, nothing was written there either.
  }
};

const parsed = (text: string | null): unknown => {
  if (text === null) return undefined;
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
};

export const readLastWords = (id: string): LastWords | undefined => {
  try {
    const words = parsed(localStorage.getItem(keyOf(id)));
    if (typeof words !== 'object' || words === null || !('after' in words)) return undefined;
    const { after, label, job } = words as Record<string, unknown>;
    if (typeof after !== 'number') return undefined;
    return { after, label: typeof label === 'string' ? label : 'the last change', job };
  } catch {
    return undefined;
  }
};

/** What version 1 left for its one job, which is `id` from now on. */
export const carryLastWordsOver = (id: string): void => {
  try {
    const job = parsed(localStorage.getItem(prefix));
    if (job !== undefined) leaveLastWords(id, { after: 1, label: 'the last change', job });
    localStorage.removeItem(prefix);
  } catch {
    // This browser has no local storage here.
  }
};

/** Last words of all jobs: pictures that they name must not be deleted. */
export const allLastWords = (): unknown[] => {
  try {
    return Object.keys(localStorage)
      .filter((key) => key.startsWith(prefix))
      .map((key) => parsed(localStorage.getItem(key)));
  } catch {
    return [];
  }
};
