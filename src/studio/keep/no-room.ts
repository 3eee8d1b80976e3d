/**
 * A disk or a quota that is full: what did not fit is told in one place with what can be freed, lives on
 * in the open page, and is kept as soon as there is room.
 */
import { isNoRoom } from '../../files/room.ts';
import type { Floor } from '../floor.ts';

/** Pause before a failed write is tried again: room may be freed here or elsewhere on the disk. */
export const TRY_AGAIN_MS = 10_000;

type Write = () => Promise<void>;

/** Runs tasks of one name one after the other, so that nothing is written twice at the same time. */
const createTurns = () => {
  const last = new Map<string, Promise<unknown>>();
  return <T>(name: string, task: () => Promise<T>): Promise<T> => {
    const next = (last.get(name) ?? Promise.resolve()).then(task, task);
    last.set(name, next);
    return next;
  };
};

export const createRoom = ({ work, disk: { frames }, askBeforeLeaving }: Floor) => {
  /** Writes that failed for want of room, by name. */
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

  /** @returns whether it is written and no longer waits. @throws errors other than a full disk. */
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
    for (const name of before) if (!left.has(name)) found(name);
  };

  const tryAgain = async (): Promise<void> => {
    clearTimeout(timer);
    timer = undefined;
    await inTurn('frames', keepFrames);
    for (const what of [...unwritten.keys()])
      await inTurn(what, async () => {
        // It was written meanwhile, or a later write of the same name replaced it.
        const write = unwritten.get(what);
        // A write that fails for another reason stays in the queue too.
        if (write !== undefined) await tryToWrite(what, write).catch(() => false);
      });
    soon();
  };

  return {
    /** @param what did not fit, as a person would name it. */
    tell,

    /** Forgets a report of want of room: the write has succeeded. */
    found,

    /** Reports the error if it came from a full disk. */
    tellIfNone: (error: unknown, what: string): void => {
      if (isNoRoom(error)) tell(what);
    },

    /** Frames wait in their own store; this reports them and retries them with the rest. */
    frameFoundNone: (name: string): void => {
      tell(name);
      soon();
    },

    /**
     * Writes. On a full disk it reports that, and writes the latest of each name once there is room.
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

    /** Retries every write that failed for want of room. Never rejects. */
    tryAgain,
  };
};

export type Room = ReturnType<typeof createRoom>;
