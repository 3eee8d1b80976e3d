/** The lie of the land as a function: both the mesh and the foam along the shore ask it. */
import { cloudNoise, noise } from '../shared/prng.mjs';
import { smooth } from '../shared/colour.mjs';

export const SEA_Y = 100;

/** Rocks off the point: x, z, radius, height. */
const SKERRIES = [
  [-28, 44, 11, 9],
  [-40, 58, 7, 5],
  [-14, 30, 8, 6],
  [-78, 150, 14, 10],
  [-60, 158, 9, 6],
];

/** y of the ground (larger is lower); well below the sea away from land. */
export function landY(x, z) {
  const rough = cloudNoise(x / 26 + 4, z / 26, 0, 4) - 0.5;
  const q = Math.sqrt(((x - 84) / 104) ** 2 + ((z - 92) / 62) ** 2) + 0.34 * rough;
  let y = SEA_Y + 16 - 48 * smooth(1.06, 0.84, q) - 20 * smooth(0.9, 0.3, q) + rough * 8;
  for (const [sx, sz, r, h] of SKERRIES) {
    const d =
      Math.sqrt((x - sx) ** 2 + ((z - sz) * 1.3) ** 2) / r + 0.9 * (noise(x / 5, z / 5, sx) - 0.5);
    y = Math.min(y, SEA_Y + 14 - (14 + h) * smooth(1.3, 0.3, d));
  }
  return y;
}

/** The knoll at the viewer's feet, lower in the middle so that the water shows. */
export function knollY(x, z) {
  const dip = 17 * Math.exp(-(((x - 8) / 46) ** 2));
  const rough = cloudNoise(x / 18, z / 18, 9, 3) - 0.5;
  return (
    80 +
    dip +
    0.1 * (z + 110) +
    10 * rough +
    70 * smooth(-52, -24, z + 12 * rough) +
    44 * smooth(-100, -122, z)
  );
}
