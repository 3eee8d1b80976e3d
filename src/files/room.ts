/** How much room the browser gives the studio, whether it promises to keep the data, and errors of a full disk. */
import { StudioError } from '../contract/errors.ts';

/** Firefox sometimes uses other names for a full quota and a full disk (from memory). */
const names = [
  'QuotaExceededError',
  'NS_ERROR_DOM_QUOTA_REACHED',
  'NS_ERROR_FILE_NO_DEVICE_SPACE',
] as readonly string[];

/** Whether an error, the browser's or the studio's, comes from a full disk or quota. */
export const isNoRoom = (error: unknown): boolean =>
  error instanceof StudioError
    ? error.code === 'no-room'
    : error instanceof DOMException && names.includes(error.name);

export interface Room {
  readonly usedBytes: number;
  readonly quotaBytes: number;
}

/** The browser's own estimate; undefined if it gives none. */
export const roomNow = async (): Promise<Room | undefined> => {
  try {
    const { usage, quota } = await navigator.storage.estimate();
    if (usage === undefined || quota === undefined) return undefined;
    return { usedBytes: usage, quotaBytes: quota };
  } catch {
    return undefined;
  }
};

/** `unsaid`: the browser cannot promise it. */
export type Promised = 'kept' | 'not-promised' | 'unsaid';

const promisedBy = async (ask: () => Promise<boolean>): Promise<Promised> => {
  try {
    return (await ask()) ? 'kept' : 'not-promised';
  } catch {
    return 'unsaid';
  }
};

export const promisedNow = () => promisedBy(() => navigator.storage.persisted());

/** Some browsers ask the person, some decide by themselves. */
export const askToKeep = () => promisedBy(() => navigator.storage.persist());
