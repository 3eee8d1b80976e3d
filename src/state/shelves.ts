/** The shelves and their undo steps. They outlive the job, and undo on the job sheet does not change them. */
import { createStore } from 'zustand/vanilla';
import type { Shelves } from '../materials/shelves.ts';
import { emptyShelves } from '../materials/shelves.ts';
import { carryOver } from '../materials/shelf-file.ts';

/** A message at the shelves, until the next change. */
export interface ShelfNotice {
  readonly kind: 'info' | 'caution' | 'problem';
  readonly title: string;
  /** A sentence each. */
  readonly lines: readonly string[];
}

interface Step {
  readonly label: string;
  readonly before: Shelves;
}

export interface ShelvesState {
  readonly shelves: Shelves;
  /** False until the kept shelves are in the store. */
  readonly ready: boolean;
  readonly past: readonly Step[];
  readonly notice: ShelfNotice | undefined;
  /** Makes a change that can be undone, and dismisses the last notice. */
  change(label: string, shelves: Shelves): void;
  undo(): void;
  /** Fills the store from the disk, without an undo step. */
  open(shelves: Shelves): void;
  /** Makes a change that another tab made, from `before` to `after`, without an undo step. */
  follow(before: Shelves, after: Shelves): void;
  tell(notice: ShelfNotice | undefined): void;
}

const STEPS_KEPT = 50;

export const createShelvesStore = () =>
  createStore<ShelvesState>()((set, get) => ({
    shelves: emptyShelves(),
    ready: false,
    past: [],
    notice: undefined,
    change(label, shelves) {
      const { shelves: before, past } = get();
      if (shelves === before) return;
      set({
        shelves,
        past: [...past.slice(-STEPS_KEPT + 1), { label, before }],
        notice: undefined,
      });
    },
    undo() {
      const { past } = get();
      const step = past.at(-1);
      if (step === undefined) return;
      set({ shelves: step.before, past: past.slice(0, -1), notice: undefined });
    },
    open: (shelves) => set({ shelves, ready: true, past: [] }),
    follow(before, after) {
      const { shelves, past } = get();
      set({
        shelves: carryOver(before, after, shelves),
        past: past.map((step) => ({ ...step, before: carryOver(before, after, step.before) })),
      });
    },
    tell: (notice) => set({ notice }),
  }));

export type ShelvesStore = ReturnType<typeof createShelvesStore>;
