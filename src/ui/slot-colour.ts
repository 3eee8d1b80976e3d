/**
 * A colour for each view slot: from plum at the left camera over leaf green to straw at the right one.
 * Lightness rises evenly in OKLab (Ottosson 2020), so that neighbours keep their order in grey too;
 * it stays between what a light and what a dark ground can show. Legible only beside words.
 */
export const slotColour = (slot: number, viewSlots: number): string => {
  const share = viewSlots < 2 ? 0.5 : slot / (viewSlots - 1);
  const lightness = 0.42 + 0.4 * share;
  const hue = 330 - 240 * share;
  return `oklch(${lightness.toFixed(3)} 0.11 ${((hue + 360) % 360).toFixed(1)})`;
};
