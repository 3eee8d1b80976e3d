/** One colour a view, wherever views are told apart by colour. */

/** Lightness 0 … 1, chroma, and hue in degrees, in OKLCh (Ottosson 2020). */
interface Lch {
  readonly lightness: number;
  readonly chroma: number;
  readonly hue: number;
}

/**
 * From plum at the left camera over leaf green to straw at the right one. Lightness rises evenly, so that neighbours
 * keep their order in grey too; it stays between what a light and what a dark ground can show.
 * @param slot 0 is the left camera's.
 */
export const viewColour = (slot: number, viewSlots: number): Lch => {
  const share = viewSlots < 2 ? 0.5 : slot / (viewSlots - 1);
  return { lightness: 0.42 + 0.4 * share, chroma: 0.11, hue: (330 - 240 * share + 360) % 360 };
};

/**
 * Linear light, sRGB primaries, 0 … 1; clipped where the colour lies outside of them. The matrices: Björn Ottosson,
 * "A perceptual color space for image processing", 2020.
 */
export const linearOfLch = ({ lightness, chroma, hue }: Lch): [number, number, number] => {
  const turn = (hue * Math.PI) / 180;
  const [a, b] = [chroma * Math.cos(turn), chroma * Math.sin(turn)];
  const l = (lightness + 0.3963377774 * a + 0.2158037573 * b) ** 3;
  const m = (lightness - 0.1055613458 * a - 0.0638541728 * b) ** 3;
  const s = (lightness - 0.0894841775 * a - 1.291485548 * b) ** 3;
  const clip = (light: number) => Math.min(1, Math.max(0, light));
  return [
    clip(4.0767416621 * l - 3.3077115913 * m + 0.2309699292 * s),
    clip(-1.2684380046 * l + 2.6097574011 * m - 0.3413193965 * s),
    clip(-0.0041960863 * l - 0.7034186147 * m + 1.707614701 * s),
  ];
};
