/** Between the work store and the browser's disk: parallax as it was measured before a reload. */
import { loadParallax } from '../../files/parallax-store.ts';
import { parallaxKeyOf } from '../../job/facts/parallax.ts';
import type { Studio } from '../studio.ts';

/** Never rejects: without a database it is measured again. A result for other frames is ignored. */
export const recallParallax = async ({ document, work }: Studio): Promise<void> => {
  const whole = await loadParallax().catch(() => undefined);
  if (whole === undefined || work.getState().parallax !== undefined) return;
  if (whole.key === parallaxKeyOf(document.getState().job))
    work.setState({ parallax: whole, wholeParallax: whole });
};
