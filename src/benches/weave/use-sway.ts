/** The gentle sway: turns the proof by itself until it is stopped, a weave begins or the page hides. */
import { useEffect, useSyncExternalStore } from 'react';
import { swayTilt } from '../../preview/sway.ts';
import { documentStore } from '../../state/document.ts';
import { useView, useWork } from '../../state/hooks.ts';
import { viewStore } from '../../state/view.ts';
import { viewChangesOf } from '../../studio/proof/proof-scene.ts';

const lessMotion = () => matchMedia('(prefers-reduced-motion: reduce)');

/** Whether this computer asks for less motion. */
export const useLessMotion = (): boolean =>
  useSyncExternalStore(
    (changed) => {
      const query = lessMotion();
      query.addEventListener('change', changed);
      return () => query.removeEventListener('change', changed);
    },
    () => lessMotion().matches,
  );

export const stopSway = (): void => {
  if (viewStore.getState().swaying) viewStore.getState().set({ swaying: false });
};

export const useSway = (): void => {
  const swaying = useView((view) => view.swaying);
  const weaving = useWork((work) => work.weave.stage === 'weaving');
  const still = useLessMotion();
  useEffect(() => {
    // The cores belong to the weave while there is one.
    if (!swaying || weaving || still) return undefined;
    const startTilt = viewStore.getState().tilt;
    const startedAt = performance.now();
    let due = 0;
    const step = (now: number) => {
      const seconds = (now - startedAt) / 1000;
      const changes = viewChangesOf(documentStore.getState().job);
      viewStore.getState().set({ tilt: swayTilt(startTilt, Math.max(0, seconds), changes) });
      due = requestAnimationFrame(step);
    };
    due = requestAnimationFrame(step);
    return () => cancelAnimationFrame(due);
  }, [swaying, weaving, still]);
};
