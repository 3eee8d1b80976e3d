import { loadParallax } from '../../files/parallax-store.ts';
import { parallaxKeyOf } from '../../job/facts/parallax.ts';
import type { Studio } from '../studio.ts';

/** Recalls the parallax that was measured before a reload, if it is of these frames. Never rejects. */
export const recallParallax = async ({ document, work }: Studio): Promise<void> => {
  const whole = await loadParallax().catch(() => undefined);
  if (whole === undefined || work.getState().parallax !== undefined) return;
  if (whole.key === parallaxKeyOf(document.getState().job))
    work.setState({ parallax: whole, wholeParallax: whole });
};
