/**
 * A disk or a quota that is full: what did not fit is told in one place with what can be freed, lives on
 * in the open page, and is kept as soon as there is room.
 */
import { frameStore } from '../../files/frame-store.ts';
import { isNoRoom } from '../../files/room.ts';
import { workStore } from '../../state/work.ts';

/** Until somebody makes room, here or elsewhere on the disk. */
export const TRY_AGAIN_MS = 10_000;

type Write = () => Promise<void>;

/** What finds no room, by what it is called. */
const waiting = new Map<string, Write>();
let timer: ReturnType<typeof setTimeout> | undefined;
/** By name, one write after the other, so that nothing is written twice. */
const last = new Map<string, Promise<unknown>>();
const inTurn = <T>(what: string, task: () => Promise<T>): Promise<T> => {
  const next = (last.get(what) ?? Promise.resolve()).then(task, task);
  last.set(what, next);
  return next;
};

/** @param what did not fit, as a person would name it. */
export const tellNoRoom = (what: string): void => {
  const { noRoomFor, set } = workStore.getState();
  if (!noRoomFor.includes(what)) set({ noRoomFor: [...noRoomFor, what] });
};

/** It did fit after all. */
export const foundRoom = (what: string): void => {
  const { noRoomFor, set } = workStore.getState();
  if (noRoomFor.includes(what)) set({ noRoomFor: noRoomFor.filter((one) => one !== what) });
};

/** Tells, when it was for want of room. */
export const tellIfNoRoom = (error: unknown, what: string): void => {
  if (isNoRoom(error)) tellNoRoom(what);
};

const ask = (event: BeforeUnloadEvent) => event.preventDefault();
const reasons = new Set<string>();

/** Leaving the page is asked about while something lives in it alone. */
export const onlyHere = (reason: string, isSo: boolean): void => {
  if (isSo) reasons.add(reason);
  else reasons.delete(reason);
  if (typeof addEventListener === 'undefined') return;
  if (reasons.size > 0) addEventListener('beforeunload', ask);
  else removeEventListener('beforeunload', ask);
};

const soon = (): void => {
  const some = stillWaiting().length > 0;
  onlyHere('waits for room', some);
  if (some) timer ??= setTimeout(() => void keepWaiting(), TRY_AGAIN_MS);
};

/** Frames wait in their own store; here they are told of, and tried again with the rest. */
export const frameFoundNoRoom = (name: string): void => {
  tellNoRoom(name);
  soon();
};

/** @returns whether it is written, and no longer waits. @throws what is no want of room. */
const tryToWrite = async (what: string, write: Write): Promise<boolean> => {
  try {
    await write();
    if (waiting.delete(what)) foundRoom(what);
    return true;
  } catch (error) {
    if (!isNoRoom(error)) throw error;
    waiting.set(what, write);
    return false;
  }
};

/**
 * Writes, or tells that there is no room and writes as soon as there is: then the latest of a name.
 * @returns whether it is written.
 * @throws what the browser said when it was not for want of room.
 */
export const keepWithRoom = (what: string, write: Write): Promise<boolean> =>
  inTurn(what, async () => {
    try {
      const written = await tryToWrite(what, write);
      if (!written) tellNoRoom(what);
      return written;
    } finally {
      soon();
    }
  });

const keepFrames = async (): Promise<void> => {
  const before = frameStore.unkept();
  const left = new Set(await frameStore.keepAgain());
  for (const name of before) if (!left.has(name)) foundRoom(name);
};

/** What would be tried once more, by name. */
export const stillWaiting = (): string[] => [...frameStore.unkept(), ...waiting.keys()];

/** Tries everything once more that found no room. Never rejects. */
export const keepWaiting = async (): Promise<void> => {
  clearTimeout(timer);
  timer = undefined;
  await inTurn('frames', keepFrames);
  for (const what of [...waiting.keys()])
    await inTurn(what, async () => {
      // Written meanwhile, or replaced by a later one.
      const write = waiting.get(what);
      // What fails for another reason goes on waiting as well.
      if (write !== undefined) await tryToWrite(what, write).catch(() => false);
    });
  soon();
};
