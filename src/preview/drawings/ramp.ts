/**
 * The colours of the heat map: blue in front of the key plane, pale on it, orange behind. The ends differ from the
 * middle in lightness, and from each other in hues that colour-blind people can distinguish.
 */
export type Rgb = readonly [number, number, number];

const FRONT: Rgb = [20, 60, 160];
const REST: Rgb = [245, 243, 236];
const BEHIND: Rgb = [190, 80, 0];

const between = (a: Rgb, b: Rgb, share: number): Rgb => [
  Math.round(a[0] + (b[0] - a[0]) * share),
  Math.round(a[1] + (b[1] - a[1]) * share),
  Math.round(a[2] + (b[2] - a[2]) * share),
];

/** Ribs. Beyond this step the lens shows everything doubled. */
export const RAMP_ENDS = 2;

/** @param step ribs from one frame to the next; beyond the ends the colour stays. */
export const colourOf = (step: number): Rgb => {
  const share = Math.max(-1, Math.min(1, step / RAMP_ENDS));
  return share < 0 ? between(REST, FRONT, -share) : between(REST, BEHIND, share);
};

export const cssOf = ([r, g, b]: Rgb): string => `rgb(${r} ${g} ${b})`;
