/** Sky, sea, far hills, headland, and the knoll with its turf. */
import { hex, mix, scaled } from '../shared/colour.mjs';
import { clump } from '../shared/plants.mjs';
import { cloudNoise, makeRandom, noise } from '../shared/prng.mjs';
import { knollY, landY, SEA_Y } from './land.mjs';
import { FAR, LAND, LEAF, SEA, SKY } from './weather.mjs';

const NONE = [0.5, 0.5, 0.5];
const turf = ['#4a7634', '#5f8a3c', '#76994a', '#3f6a38'].map(hex);

export function buildCoast(mesh) {
  mesh.quad(
    [-420, -420, 340],
    [420, -420, 340],
    [420, SEA_Y + 6, 340],
    [-420, SEA_Y + 6, 340],
    NONE,
    SKY,
  );
  mesh.quad(
    [-420, SEA_Y, -110],
    [420, SEA_Y, -110],
    [420, SEA_Y, 340],
    [-420, SEA_Y, 340],
    NONE,
    SEA,
    20,
    20,
  );
  hills(mesh);
  mesh.surface(230, 130, LAND, (u, v) => {
    const x = -100 + 290 * u;
    const z = 4 + 170 * v;
    return { p: [x, landY(x, z), z], c: NONE };
  });
  mesh.surface(130, 60, LAND, (u, v) => {
    const x = -110 + 220 * u;
    const z = -122 + 104 * v;
    return { p: [x, knollY(x, z), z], c: NONE };
  });
  const random = makeRandom(33);
  for (let i = 0; i < 700; i++) {
    const x = random.spread(98);
    const z = random.between(-118, -42);
    clump(mesh, LEAF, random, [x, knollY(x, z) + 0.5, z], 7, {
      length: 9,
      width: 1,
      rise: [0.6, 1.4],
      droop: 0.25,
      steps: 3,
      colours: turf,
    });
  }
  for (let i = 0; i < 260; i++) {
    const x = random.between(0, 150);
    const z = random.between(40, 140);
    const y = landY(x, z);
    if (y > 62) continue;
    clump(mesh, LEAF, random, [x, y + 0.5, z], 6, {
      length: 6,
      width: 1.1,
      rise: [0.6, 1.4],
      droop: 0.25,
      steps: 2,
      colours: turf,
    });
  }
}

/** Two far ranges, painted flat. */
function hills(mesh) {
  const range = (z, high, seed, colour) =>
    mesh.surface(120, 8, FAR, (u, v) => {
      const x = -330 + 430 * u;
      const fall = Math.max(0, 1 - Math.max(0, x + 150) / 130);
      const top = high * (0.25 + cloudNoise(x / 60, seed, 0, 4)) * Math.min(1, fall);
      return {
        p: [x, SEA_Y - top * (1 - v), z + 6 * v],
        c: mix(scaled(colour, 0.85 + 0.3 * noise(x / 6, v * 6)), hex('#d9d2b4'), v > 0.8 ? 0.5 : 0),
        n: [-0.3, -0.6, -0.7],
      };
    });
  range(318, 52, 3, hex('#8fb3b4'));
  range(290, 27, 8, hex('#7fa58c'));
}
