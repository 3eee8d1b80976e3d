import { srgbToLinear } from '../../src/core/colour/srgb.ts';
import type { Place } from '../../src/core/stage/turn.ts';

/** "#rrggbb", sRGB, in linear light 0 … 1. White where it is no colour. */
export const linearOfCode8 = (colour: string): Place => {
  const hex = /^#([0-9a-f]{2})([0-9a-f]{2})([0-9a-f]{2})$/i.exec(colour);
  const part = (at: number) => srgbToLinear(parseInt(hex?.[at] ?? 'ff', 16) / 255);
  return [part(1), part(2), part(3)];
};
