/** Frees the disk space of prepared frames that are no longer needed. */
import type { PreparedFrame } from '../../contract/frames.ts';
import { removePrepared } from '../../files/sweep.ts';
import type { Floor } from '../floor.ts';

/** Frames that no longer fit the job. A weave may still read them, so none is removed while a file is written. */
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

/** Frames that are prepared for one file only, beside those of the proof. */
export const createHeld = () => {
  const names = new Set<string>();
  return {
    /** Names on the private disk. */
    names: names as ReadonlySet<string>,

    /** Keeps these frames while the file is woven. @returns what removes them */
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
