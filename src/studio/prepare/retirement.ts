/** Prepared frames that no longer fit the job, and the disk space they take. */
import type { PreparedFrame } from '../../contract/frames.ts';
import { removePrepared } from '../../files/sweep.ts';
import type { Floor } from '../floor.ts';

/**
 * Gives back the disk that prepared frames take. A file that is being woven reads from them to its end, so
 * nothing is given back while anything is written.
 */
export const createRetirement = ({ tasks }: Floor) => {
  const retired: string[] = [];
  const clear = () => {
    if (retired.length === 0 || tasks.isWriting()) return;
    for (const diskName of retired.splice(0)) removePrepared(diskName).catch(() => undefined);
  };
  return {
    retire: ({ diskName }: PreparedFrame): void => {
      if (diskName !== undefined) retired.push(diskName);
      clear();
    },
    waiting: (): readonly string[] => retired,
    start: () => tasks.store.subscribe(clear),
  };
};

export type Retirement = ReturnType<typeof createRetirement>;

/** Frames that are prepared for one file alone, beside what the proof shows. */
export const createHeld = () => {
  const names = new Set<string>();
  return {
    /** On the private disk. */
    names: names as ReadonlySet<string>,

    /** Keeps these while the file is woven from them. @returns what gives their room back */
    hold: (frames: readonly PreparedFrame[]): (() => void) => {
      const own = frames.flatMap(({ diskName }) => diskName ?? []);
      for (const name of own) names.add(name);
      return () => {
        for (const name of own) {
          names.delete(name);
          removePrepared(name).catch(() => undefined);
        }
      };
    },
  };
};
