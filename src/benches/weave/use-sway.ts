/** The gentle sway: turns the proof by itself until it is stopped, a weave begins or the page hides. */
import { useEffect, useSyncExternalStore } from 'react';
import { viewChangesOf } from '../../job/facts/eye.ts';
import { swayTilt } from '../../preview/sway.ts';
import { useIsWeaving, useStudio, useView } from '../studio.ts';

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

export const useSway = (): void => {
  const studio = useStudio();
  const swaying = useView((view) => view.swaying);
  const weaving = useIsWeaving();
  const still = useLessMotion();
  useEffect(() => {
    // The cores belong to the weave while there is one.
    if (!swaying || weaving || still) return undefined;
    const startTilt = studio.view.getState().tilt;
    const startedAt = performance.now();
    let due = 0;
    const step = (now: number) => {
      const seconds = (now - startedAt) / 1000;
      const changes = viewChangesOf(studio.document.getState().job);
      studio.view.setState({ tilt: swayTilt(startTilt, Math.max(0, seconds), changes) });
      due = requestAnimationFrame(step);
    };
    due = requestAnimationFrame(step);
    return () => cancelAnimationFrame(due);
  }, [studio, swaying, weaving, still]);
};
