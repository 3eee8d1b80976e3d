/** Between the work store and the browser's disk: parallax as it was measured before a reload. */
import { loadParallax } from '../../files/parallax-store.ts';
import { parallaxKeyOf } from '../../job/facts/parallax.ts';
import { documentStore } from '../../state/document.ts';
import { workStore } from '../../state/work.ts';

/** Never throws: without a database it is measured again. Nothing is laid in that is of other frames. */
export const recallParallax = async (): Promise<void> => {
  const whole = await loadParallax().catch(() => undefined);
  const { parallax, set } = workStore.getState();
  if (whole === undefined || parallax !== undefined) return;
  if (whole.key === parallaxKeyOf(documentStore.getState().job))
    set({ parallax: whole, wholeParallax: whole });
};
