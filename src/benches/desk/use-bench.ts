import { useEffect, useSyncExternalStore } from 'react';
import type { ViewStore } from '../../state/view.ts';
import { useStudio } from '../studio.ts';
import type { Bench } from './benches.ts';
import { benchFor } from './benches.ts';

const fromAddress = (view: ViewStore): Bench => benchFor(location.hash, view.getState().lastBench);

const onAddress = (told: () => void) => {
  addEventListener('hashchange', told);
  return () => removeEventListener('hashchange', told);
};

/** The bench the address names. An address that names none is put right without a step in history. */
export const useBench = (): Bench => {
  const { view } = useStudio();
  // A store of React's own kind: an address that changes before the page listens is not missed.
  const bench = useSyncExternalStore(onAddress, () => fromAddress(view));
  useEffect(() => {
    // Asked again, since the address may have gone on while this bench was drawn.
    const { name } = fromAddress(view);
    if (location.hash !== `#/${name}`) history.replaceState(null, '', `#/${name}`);
    view.setState({ lastBench: bench.name });
  }, [view, bench]);
  return bench;
};
