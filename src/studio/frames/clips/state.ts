/** Clips that were handed over and wait for the person to choose frames. Lasts as long as the page. */
import { createStore } from 'zustand/vanilla';
import type { ClipFacts } from '../../../contract/clip.ts';

/** What is chosen of a clip; frames are counted from 0. */
export interface ClipChoice {
  readonly first: number;
  readonly last: number;
  readonly count: number;
  /** Rising; set by hand, or spread evenly over the stretch. */
  readonly frames: readonly number[];
}

export type ClipStage =
  | { readonly kind: 'looking'; readonly share: number }
  | { readonly kind: 'choosing'; readonly facts: ClipFacts; readonly choice: ClipChoice }
  | {
      readonly kind: 'taking';
      readonly facts: ClipFacts;
      readonly choice: ClipChoice;
      readonly done: number;
    }
  | {
      readonly kind: 'failed';
      readonly message: string;
      /** Left out: it could not even be opened. */
      readonly again?: { readonly facts: ClipFacts; readonly choice: ClipChoice };
    };

export interface Clip {
  readonly id: number;
  readonly file: File;
  /** The person said that its frames are added to the open job. */
  readonly adding: boolean;
  readonly stage: ClipStage;
}

export const createClips = () => {
  const store = createStore<{ readonly clips: readonly Clip[] }>()(() => ({ clips: [] }));
  let made = 0;
  /** What is under way for a clip, by its id. */
  const halts = new Map<number, AbortController>();
  return {
    /** The first is on the screen, the others wait. */
    store,
    add: (file: File, adding: boolean): Clip => {
      made += 1;
      const clip: Clip = { id: made, file, adding, stage: { kind: 'looking', share: 0 } };
      store.setState(({ clips }) => ({ clips: [...clips, clip] }));
      return clip;
    },
    /** Nothing where it has been let go meanwhile. */
    stage: (id: number, stage: ClipStage): void =>
      store.setState(({ clips }) => ({
        clips: clips.map((clip) => (clip.id === id ? { ...clip, stage } : clip)),
      })),
    /** @returns the signal that stops what now begins for this clip, and for no other. */
    begin: (id: number): AbortSignal => {
      const halt = new AbortController();
      halts.set(id, halt);
      return halt.signal;
    },
    stop: (id: number): void => halts.get(id)?.abort(),
    drop: (id: number): void =>
      store.setState(({ clips }) => ({ clips: clips.filter((clip) => clip.id !== id) })),
  };
};
