/** What factors on a picture’s light are called. */
import type { Gains, PictureLight } from './picture-light.ts';
import { luminanceOf } from './picture-light.ts';

/** What has these gains, all above 0. */
export const lightOfGains = (gains: Gains): PictureLight => {
  const [red, green, blue] = [
    Math.log2(gains[0]),
    Math.log2(gains[1]),
    Math.log2(gains[2]),
  ] as const;
  return {
    stops: Math.log2(luminanceOf(gains)),
    warmth: red - blue,
    tint: green - (red + blue) / 2,
  };
};
