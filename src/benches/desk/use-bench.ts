import { useEffect, useSyncExternalStore } from 'react';
import { viewStore } from '../../state/view.ts';
import type { Bench } from './benches.ts';
import { benchFor } from './benches.ts';

const fromAddress = (): Bench => benchFor(location.hash, viewStore.getState().lastBench);

const onAddress = (told: () => void) => {
  addEventListener('hashchange', told);
  return () => removeEventListener('hashchange', told);
};

/** The bench the address names. An address that names none is put right without a step in history. */
export const useBench = (): Bench => {
  // A store of React's own kind: an address that changes before the page listens is not missed.
  const bench = useSyncExternalStore(onAddress, fromAddress);
  useEffect(() => {
    // Asked again, since the address may have gone on while this bench was drawn.
    const { name } = fromAddress();
    if (location.hash !== `#/${name}`) history.replaceState(null, '', `#/${name}`);
    viewStore.getState().set({ lastBench: bench.name });
  }, [bench]);
  return bench;
};
