/** Targets that Calibrate prints beside the strip, and what the ghost trim clips. Gone with the page. */
import { createStore } from 'zustand/vanilla';
import type { Clipped } from '../core/weave/ghost.ts';
import type { WeaveState } from './work.ts';

export interface TargetState {
  readonly wedge: WeaveState;
  readonly lampTarget: WeaveState;
  /** By different picture; undefined while nothing is trimmed or pictures are not ready. */
  readonly ghostClipped: readonly Clipped[] | undefined;
  set(change: Partial<Omit<TargetState, 'set'>>): void;
}

export const targetStore = createStore<TargetState>()((set) => ({
  wedge: { stage: 'idle' },
  lampTarget: { stage: 'idle' },
  ghostClipped: undefined,
  set: (change) => set(change),
}));
