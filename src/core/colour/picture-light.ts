/** Brightness and white of one picture, as factors on its linear light. */

/** All in stops; 0 leaves the picture as it is. */
export interface PictureLight {
  /** Of a grey: luminance × 2^stops. */
  readonly stops: number;
  /** Red against blue: above 0 is warmer. */
  readonly warmth: number;
  /** Green against red and blue: above 0 is greener. */
  readonly tint: number;
}

/** Factors on the linear light of red, green and blue. */
export type Gains = readonly [red: number, green: number, blue: number];

/** Luminance of linear Rec. 709 primaries (ITU-R BT.709). */
const LUMINANCE = [0.2126, 0.7152, 0.0722] as const;

/** Of linear light; 1 for white. */
export const luminanceOf = (rgb: Gains): number =>
  LUMINANCE.reduce((sum, share, channel) => sum + share * rgb[channel]!, 0);

export const gainsOf = ({ stops, warmth, tint }: PictureLight): Gains => {
  const colour: Gains = [
    2 ** (warmth / 2 - tint / 2),
    2 ** (tint / 2),
    2 ** (-warmth / 2 - tint / 2),
  ];
  const scale = 2 ** stops / luminanceOf(colour);
  return [scale * colour[0], scale * colour[1], scale * colour[2]];
};
