/** How much room the browser gives the studio, whether it promises to keep it, and the want of it. */
import { StudioError } from '../contract/errors.ts';

/** Firefox has names of its own for a full quota and a full disk in some places (from memory). */
const names = [
  'QuotaExceededError',
  'NS_ERROR_DOM_QUOTA_REACHED',
  'NS_ERROR_FILE_NO_DEVICE_SPACE',
] as readonly string[];

/** True for what a browser throws, or the studio makes of it, when a disk or a quota is full. */
export const isNoRoom = (error: unknown): boolean =>
  error instanceof StudioError
    ? error.code === 'no-room'
    : error instanceof DOMException && names.includes(error.name);

export interface Room {
  readonly usedBytes: number;
  readonly quotaBytes: number;
}

/** Undefined where the browser does not say. Both figures are its own, rounded guesses. */
export const roomNow = async (): Promise<Room | undefined> => {
  try {
    const { usage, quota } = await navigator.storage.estimate();
    if (usage === undefined || quota === undefined) return undefined;
    return { usedBytes: usage, quotaBytes: quota };
  } catch {
    return undefined;
  }
};

/** `unsaid`: the browser has no word for it. */
export type Promised = 'kept' | 'not-promised' | 'unsaid';

export const promisedNow = async (): Promise<Promised> => {
  try {
    return (await navigator.storage.persisted()) ? 'kept' : 'not-promised';
  } catch {
    return 'unsaid';
  }
};

/** Some browsers ask the person, some decide by themselves. */
export const askToKeep = async (): Promise<Promised> => {
  try {
    return (await navigator.storage.persist()) ? 'kept' : 'not-promised';
  } catch {
    return 'unsaid';
  }
};
