/** What just happened, in a sentence, for those who listen. */
import { createStore } from 'zustand/vanilla';

export const liveStore = createStore<{ readonly said: string; readonly serial: number }>()(() => ({
  said: '',
  serial: 0,
}));

export const announce = (said: string): void =>
  liveStore.setState(({ serial }) => ({ said, serial: serial + 1 }));
