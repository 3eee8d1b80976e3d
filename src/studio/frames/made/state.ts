/** The choices for made views, the progress of making them, and the look at one. Lasts as long as the page. */
import { createStore } from 'zustand/vanilla';
import type { FileToRead } from '../../../contract/frames.ts';
import type { FilledPlaces } from '../../../core/frames/synth/filled-places.ts';
import type { SynthChoices } from '../../../job/facts/synth.ts';

/** A view made small, to look at. */
export interface Look {
  /** Object address of the picture. */
  readonly picture: string;
  readonly filled: FilledPlaces;
  readonly invented: number;
}

export type Stage =
  | { readonly kind: 'idle' }
  | {
      readonly kind: 'making';
      readonly what: 'views' | 'between';
      readonly done: number;
      readonly total: number;
    }
  | { readonly kind: 'done'; readonly text: string }
  | { readonly kind: 'stopped' }
  | { readonly kind: 'failed'; readonly message: string };

export interface MadeState {
  readonly depth: FileToRead | undefined;
  /** Id of the picture's frame; undefined or no longer in the job: the middle one. */
  readonly pictureId: string | undefined;
  /** Only what the person chose; the rest follows the job. */
  readonly chosen: Partial<SynthChoices>;
  /** The view looked at, counted from 0. */
  readonly shown: number;
  readonly look:
    | { readonly key: string; readonly look: Look }
    | { readonly key: string; readonly fault: string }
    | undefined;
  /** Id of the frame before the gap to fill; undefined: the first gap in the numbers. */
  readonly gapAfter: string | undefined;
  readonly gapCount: number | undefined;
  readonly stage: Stage;
}

export const createMadeViews = () => {
  const store = createStore<MadeState>()(() => ({
    depth: undefined,
    pictureId: undefined,
    chosen: {},
    shown: 0,
    look: undefined,
    gapAfter: undefined,
    gapCount: undefined,
    stage: { kind: 'idle' },
  }));
  let depthMaps = 0;

  return {
    store,
    set: (change: Partial<MadeState>): void => store.setState(change),
    choose: (change: Partial<SynthChoices>): void =>
      store.setState(({ chosen }) => ({ chosen: { ...chosen, ...change } })),
    /** Distinguishes depth maps with the same name. */
    nextDepthKey: (): string => `depth-${(depthMaps += 1)}`,
  };
};
