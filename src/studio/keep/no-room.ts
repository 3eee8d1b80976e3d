/**
 * A full disk or quota: what did not fit is reported in one place with what can be freed, stays in the open page,
 * and is written as soon as there is room.
 */
import { nameInText } from '../../core/names/shown.ts';
import { isNoRoom } from '../../files/room.ts';
import type { Floor } from '../floor.ts';

/** Pause before a failed write is tried again: room may be freed here or elsewhere on the disk. */
export const TRY_AGAIN_MS = 10_000;

type Write = () => Promise<void>;

/** Runs tasks with the same name one after the other, so that nothing is written twice at once. */
const createTurns = () => {
  const last = new Map<string, Promise<unknown>>();
  return <T>(name: string, task: () => Promise<T>): Promise<T> => {
    const next = (last.get(name) ?? Promise.resolve()).then(task, task);
    last.set(name, next);
    return next;
  };
};

export const createRoom = ({ work, disk: { frames }, askBeforeLeaving }: Floor) => {
  /** Writes that a full disk refused, by name. */
  const unwritten = new Map<string, Write>();
  const inTurn = createTurns();
  let timer: ReturnType<typeof setTimeout> | undefined;

  const tell = (what: string): void => {
    const { noRoomFor } = work.getState();
    if (!noRoomFor.includes(what)) work.setState({ noRoomFor: [...noRoomFor, what] });
  };

  const found = (what: string): void => {
    const { noRoomFor } = work.getState();
    if (noRoomFor.includes(what))
      work.setState({ noRoomFor: noRoomFor.filter((one) => one !== what) });
  };

  const waiting = (): string[] => [...frames.unkept(), ...unwritten.keys()];

  const soon = (): void => {
    const some = waiting().length > 0;
    // Leaving the page now would lose it.
    askBeforeLeaving('waits for room', some);
    if (some) timer ??= setTimeout(() => void tryAgain(), TRY_AGAIN_MS);
  };

  /** @returns whether it was written. @throws errors other than a full disk. */
  const tryToWrite = async (what: string, write: Write): Promise<boolean> => {
    try {
      await write();
      if (unwritten.delete(what)) found(what);
      return true;
    } catch (error) {
      if (!isNoRoom(error)) throw error;
      unwritten.set(what, write);
      return false;
    }
  };

  const keepFrames = async (): Promise<void> => {
    const before = frames.unkept();
    const left = new Set(await frames.keepAgain());
    for (const name of before) if (!left.has(name)) found(nameInText(name));
  };

  const tryAgain = async (): Promise<void> => {
    clearTimeout(timer);
    timer = undefined;
    await inTurn('frames', keepFrames);
    for (const what of [...unwritten.keys()])
      await inTurn(what, async () => {
        const write = unwritten.get(what);
        // Undefined: it was written meanwhile. A write that fails for another reason stays in the queue.
        if (write !== undefined) await tryToWrite(what, write).catch(() => false);
      });
    soon();
  };

  return {
    /** @param what did not fit, as a person would name it. */
    tell,

    /** Takes a report back: the write has succeeded. */
    found,

    /** Reports the error if it came from a full disk. */
    tellIfNone: (error: unknown, what: string): void => {
      if (isNoRoom(error)) tell(what);
    },

    /** Frames wait in their own store; this reports them and retries them with the rest. */
    frameFoundNone: (name: string): void => {
      tell(nameInText(name));
      soon();
    },

    /**
     * Writes. A full disk is reported, and the latest write of each name is retried once there is room.
     * @returns whether it is written.
     * @throws the browser's error when the disk was not full.
     */
    keep: (what: string, write: Write): Promise<boolean> =>
      inTurn(what, async () => {
        try {
          const written = await tryToWrite(what, write);
          if (!written) tell(what);
          return written;
        } finally {
          soon();
        }
      }),

    /** Names of the writes that will be retried. */
    waiting,

    /** Retries every write that a full disk refused. Never rejects. */
    tryAgain,
  };
};

export type Room = ReturnType<typeof createRoom>;
