/**
 * A disk or a quota that is full: what did not fit is told in one place with what can be freed, lives on
 * in the open page, and is kept as soon as there is room.
 */
import { isNoRoom } from '../../files/room.ts';
import type { Floor } from '../floor.ts';

/** Until somebody makes room, here or elsewhere on the disk. */
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
  /** What finds no room, by what it is called. */
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
    // Leaving the page would lose it.
    askBeforeLeaving('waits for room', some);
    if (some) timer ??= setTimeout(() => void tryAgain(), TRY_AGAIN_MS);
  };

  /** @returns whether it is written, and no longer waits. @throws what is no want of room. */
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
        // Written meanwhile, or replaced by a later one.
        const write = unwritten.get(what);
        // What fails for another reason goes on waiting as well.
        if (write !== undefined) await tryToWrite(what, write).catch(() => false);
      });
    soon();
  };

  return {
    /** @param what did not fit, as a person would name it. */
    tell,

    /** It did fit after all. */
    found,

    /** Tells, when it was for want of room. */
    tellIfNone: (error: unknown, what: string): void => {
      if (isNoRoom(error)) tell(what);
    },

    /** Frames wait in their own store; here they are told of, and tried again with the rest. */
    frameFoundNone: (name: string): void => {
      tell(name);
      soon();
    },

    /**
     * Writes, or tells that there is no room and writes as soon as there is: then the latest of a name.
     * @returns whether it is written.
     * @throws what the browser said when it was not for want of room.
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

    /** What would be tried once more, by name. */
    waiting,

    /** Tries everything once more that found no room. Never rejects. */
    tryAgain,
  };
};

export type Room = ReturnType<typeof createRoom>;
