/** How the person looks at the job: not part of the job or of undo. */
import { createStore } from 'zustand/vanilla';
import type { StateStorage } from 'zustand/middleware';
import { createJSONStorage, persist } from 'zustand/middleware';
import type { KeptView } from './kept-view.ts';
import { keptView } from './kept-view.ts';

export type Units = KeptView['units'];
export type Theme = KeptView['theme'];

export interface ViewState extends KeptView {
  /** The eye's sideways position, −1 … 1: one whole viewing zone from end to end. */
  readonly tilt: number;
  readonly swaying: boolean;
  /** Both eyes at once, red and cyan. */
  readonly bothEyes: boolean;
  /** The question for the person's own lens and printer was called for, also where there is little room. */
  readonly asking: boolean;
  /** The print as planned, or with the faults that Mend found. */
  readonly proofShows: 'planned' | 'printed';
  /** The job's colours as on screen, as the print shows them, or on the paper's own white. */
  readonly printLook: 'screen' | 'print' | 'paper';
  /** Marks the colours that the paper cannot show. */
  readonly gamutWarning: boolean;
  set(change: Partial<Omit<ViewState, 'set'>>): void;
}

/** Receives the browser's error when the view could not be stored, and a function to try again. */
type Unkept = (error: unknown, writeAgain: () => void) => void;

/** The store changes with every tilt; it is written only when a remembered field has changed. */
const writtenWhenChanged = (onUnkept: Unkept): StateStorage => {
  let last: string | undefined;
  return {
    getItem: (name) => localStorage.getItem(name),
    setItem: (name, value) => {
      if (value === last) return;
      last = value;
      // A failure must not break the change of the view.
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
        asking: false,
        proofShows: 'planned',
        printLook: 'screen',
        gamutWarning: false,
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
        wayFolded: false,
        askFolded: false,
        partsShown: {},
        wovenMarks: {},
        cautionsRead: [],
        phoneReaches: '',
        set: (change) => set(change),
      }),
      {
        name: 'tiltloom-view',
        version: 1,
        storage: createJSONStorage(() => writtenWhenChanged(onUnkept)),
        partialize: (state: ViewState) => keptView(state),
        merge: (stored, current) => ({ ...current, ...keptView(stored) }),
      },
    ),
  );

export type ViewStore = ReturnType<typeof createViewStore>;
