import { useEffect, useState } from 'react';
import { viewStore } from '../../state/view.ts';
import type { Bench } from './benches.ts';
import { benchFor } from './benches.ts';

const fromAddress = (): Bench => benchFor(location.hash, viewStore.getState().lastBench);

/** The bench the address names. An address that names none is put right without a step in history. */
export const useBench = (): Bench => {
  const [bench, setBench] = useState(fromAddress);
  useEffect(() => {
    const onHash = () => setBench(fromAddress());
    addEventListener('hashchange', onHash);
    return () => removeEventListener('hashchange', onHash);
  }, []);
  useEffect(() => {
    if (location.hash !== `#/${bench.name}`) history.replaceState(null, '', `#/${bench.name}`);
    viewStore.getState().set({ lastBench: bench.name });
  }, [bench]);
  return bench;
};
