/** How the person looks at the job: remembered between visits, never undone, never carried. */
import { createStore } from 'zustand/vanilla';
import type { StateStorage } from 'zustand/middleware';
import { createJSONStorage, persist } from 'zustand/middleware';
import type { SheetFileType } from '../core/encode/file-types.ts';
import type { PairsShown } from '../materials/pairs.ts';
import type { ShelfName } from '../materials/shelves.ts';
import { keptView } from './kept-view.ts';

export type Units = 'mm' | 'in';
export type Theme = 'system' | 'light' | 'dark';
export type PitchUnit = 'lpi' | 'mm';
export type SaveTo = 'private-disk' | 'chosen-file';

export interface ViewState {
  readonly units: Units;
  readonly theme: Theme;
  /** The unit the lens pitch was last typed in. */
  readonly pitchUnit: PitchUnit;
  /** The eye's sideways position, −1 … 1: one whole viewing zone from end to end. */
  readonly tilt: number;
  readonly swaying: boolean;
  /** Both eyes at once, red and cyan. */
  readonly bothEyes: boolean;
  /** The print as planned, or as Mend believes it lies there. */
  readonly proofShows: 'planned' | 'printed';
  /** Middle of the loupe, as a share of the sheet, 0 … 1. */
  readonly loupeX: number;
  readonly loupeY: number;
  readonly saveTo: SaveTo;
  /** What sheets are written as. */
  readonly fileType: SheetFileType;
  /** The bench that was open last; empty before the first visit. */
  readonly lastBench: string;
  /** Stands behind prices, in the person's own letters; empty for bare numbers. */
  readonly currencyMark: string;
  /** The shelf that was looked at last. */
  readonly openShelf: ShelfName;
  /** The table of lenses and printers: what the person added, LPI and dpi. */
  readonly ownLensCounts: readonly number[];
  readonly ownPrinterGrids: readonly number[];
  readonly pairsShown: PairsShown;
  /** Where made frames were filled is laid over their pictures. */
  readonly showFilled: boolean;
  /** A pair suits when it has a dot for each of so many frames. */
  readonly framesWanted: number;
  set(change: Partial<Omit<ViewState, 'set'>>): void;
}

/** Receives the browser's error when the view could not be stored, and a function to try again. */
type Unkept = (error: unknown, writeAgain: () => void) => void;

/** The store changes with every tilt; the disk is written only when a remembered field has changed. */
const writtenWhenChanged = (onUnkept: Unkept): StateStorage => {
  let last: string | undefined;
  return {
    getItem: (name) => localStorage.getItem(name),
    setItem: (name, value) => {
      if (value === last) return;
      last = value;
      // Whoever changes the view must not fail for it.
      const write = () => localStorage.setItem(name, last ?? value);
      try {
        write();
      } catch (error) {
        onUnkept(error, write);
      }
    },
    removeItem: (name) => localStorage.removeItem(name),
  };
};

export const createViewStore = (onUnkept: Unkept) =>
  createStore<ViewState>()(
    persist(
      (set) => ({
        units: 'mm',
        theme: 'system',
        pitchUnit: 'lpi',
        tilt: 0,
        swaying: false,
        bothEyes: false,
        proofShows: 'planned',
        loupeX: 0.5,
        loupeY: 0.5,
        saveTo: 'private-disk',
        fileType: 'png',
        lastBench: '',
        currencyMark: '',
        openShelf: 'lenses',
        ownLensCounts: [],
        ownPrinterGrids: [],
        pairsShown: 'lenses',
        framesWanted: 6,
        showFilled: true,
        set: (change) => set(change),
      }),
      {
        name: 'tiltloom-view',
        version: 1,
        storage: createJSONStorage(() => writtenWhenChanged(onUnkept)),
        // All but what is only of this visit.
        partialize: ({
          set: _set,
          tilt: _tilt,
          swaying: _swaying,
          bothEyes: _bothEyes,
          proofShows: _shows,
          ...kept
        }) => kept,
        merge: (stored, current) => ({ ...current, ...keptView(stored) }),
      },
    ),
  );

export type ViewStore = ReturnType<typeof createViewStore>;
