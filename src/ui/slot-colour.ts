/** The colour of a view slot for a style sheet. Legible only beside words. */
import { viewColour } from '../core/colour/view-colour.ts';

export const slotColour = (slot: number, viewSlots: number): string => {
  const { lightness, chroma, hue } = viewColour(slot, viewSlots);
  return `oklch(${lightness.toFixed(3)} ${chroma} ${hue.toFixed(1)})`;
};
