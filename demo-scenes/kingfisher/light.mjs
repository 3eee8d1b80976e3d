/** Materials, light, backdrop and water of the pond. */
import { hex, mix, ramp, smooth } from '../shared/colour.mjs';
import { cloudNoise, makeRandom, noise } from '../shared/prng.mjs';
import { normalise } from '../shared/vector.mjs';
import { ENTRY, ENTRY_FRAME } from './dive.mjs';

export const WATER_Y = 84;
export const LEAF = 0,
  BARK = 1,
  PLUME = 2,
  HORN = 3,
  SHELL = 4,
  DROP = 5,
  WOOD = 6,
  PETAL = 7,
  BANK = 8;
/** Reflected things use the same materials, this much further down the list. */
export const MIRRORED = 9;

const DEPTHS = [
  [-170, hex('#bfe0c8')],
  [-90, hex('#d9ecba')],
  [-20, hex('#f3efb4')],
  [30, hex('#b9cf7c')],
  [70, hex('#6f9f62')],
];
const DISCS = (() => {
  const random = makeRandom(12);
  const tones = ['#fff7cf', '#cfe59a', '#8fbf7a', '#f7e7a0', '#7fb58f', '#a9d48c'].map(hex);
  return Array.from({ length: 44 }, () => [
    random.spread(170),
    random.between(-190, 62),
    random.between(9, 30),
    random.pick(tones),
    random.between(0.18, 0.5),
  ]);
})();

/** Far trees out of focus: soft trunks, then round spots of light. */
function paintWood(p, n, c) {
  const [x, y] = p;
  let colour = ramp(DEPTHS, y + 26 * (cloudNoise(x / 60, y / 60, 0, 3) - 0.5));
  const trunk = smooth(0.56, 0.75, noise(x / 21 + 7, y / 400)) * smooth(75, -40, y);
  colour = mix(colour, hex('#6f9a7a'), 0.42 * trunk);
  colour = mix(
    colour,
    hex('#4f8a5c'),
    0.7 * smooth(20, 66, y + 34 * (cloudNoise(x / 26, 3, 0, 3) - 0.5)),
  );
  for (const [dx, dy, r, tone, strength] of DISCS) {
    const d = (x - dx) * (x - dx) + (y - dy) * (y - dy);
    if (d < r * r) colour = mix(colour, tone, strength * smooth(r, r - 2.2, Math.sqrt(d)));
  }
  for (let q = 0; q < 3; q++) c[q] = colour[q];
}

const paintBark = (p, n, c) => {
  const k = 0.7 + 0.6 * noise(p[0] * 0.22, p[1] * 0.9, p[2] * 0.9);
  for (let q = 0; q < 3; q++) c[q] *= k;
};

const solid = [
  { leafy: true, through: 0.7, shine: 0.06, gloss: 20 },
  { paint: paintBark },
  { leafy: true, through: 0.12, shine: 0.16, gloss: 16 },
  { shine: 0.5, gloss: 40 },
  { shine: 0.6, gloss: 50 },
  { leafy: true, through: 0.9, shine: 0.7, gloss: 40, casts: false },
  { paint: paintWood, glow: 1 },
  { leafy: true, through: 0.5 },
  { paint: paintBark },
];
const materials = [...solid, ...solid.map((m) => ({ ...m, mirrorY: WATER_Y, casts: false }))];

/** What water takes out of a reflection. */
const REFLECTED = [0.74, 0.97, 0.97];
const DEEP = hex('#14606c');
const SHEEN = hex('#eaf7e6');

/** Height of the rings at a distance from the splash, `age` frames after it. */
function ringsAt(distance, age) {
  if (age < 0) return 0;
  const front = 10 + 19 * age;
  const inside = smooth(front + 3, front - 6, distance);
  return (
    Math.sin((distance - front) * 0.62) *
    inside *
    Math.exp(-distance / (34 + 18 * age)) *
    Math.exp(-age * 0.16)
  );
}

/** What lies under the water's level is a reflection: tint it, and lay the surface's own light over it. */
function water(age, x, y, z, out, camera) {
  const k = WATER_Y / y;
  const wx = camera.xMm + (x - camera.xMm) * k;
  const wz = -camera.distance + (z + camera.distance) * k;
  const steep = smooth(230, -90, wz);
  const keep = 0.86 - 0.3 * steep;
  for (let q = 0; q < 3; q++) out[q] = DEEP[q] * (1 - keep) + out[q] * keep * REFLECTED[q];
  const dx = wx - ENTRY[0];
  const dz = wz - ENTRY[1];
  const ring = ringsAt(Math.sqrt(dx * dx + dz * dz), age);
  const calm = cloudNoise(wx / 34, wz / 7, 5, 3);
  const ripple = 0.5 * smooth(0.6, 0.74, calm) - 0.35 * smooth(0.42, 0.3, calm);
  const light = 0.34 * ripple + 1.5 * ring;
  if (light > 0) for (let q = 0; q < 3; q++) out[q] += (SHEEN[q] - out[q]) * Math.min(0.8, light);
  else for (let q = 0; q < 3; q++) out[q] += (DEEP[q] - out[q]) * Math.min(0.7, -light);
}

export function stageAt(frame) {
  return {
    materials,
    sun: {
      toward: normalise([-0.55, -0.72, -0.55]),
      colour: [2.5, 2.15, 1.55],
      softMm: 0.9,
      biasMm: 0.7,
    },
    sky: {
      sky: (d) =>
        d[1] < 0.05
          ? mix([0.95, 0.98, 0.78], [0.75, 0.95, 1.0], Math.min(1, 0.05 - d[1]))
          : [0.3, 0.4, 0.34],
      bounce: [0.2, 0.22, 0.15],
      directions: 26,
      size: 320,
    },
    air(x, y, z, out, camera, material) {
      // Things further off take on the colour of the air between the trees.
      if (!material.glow) {
        const t = 0.55 * smooth(60, 262, z);
        const haze = [0.62, 0.74, 0.42];
        for (let q = 0; q < 3; q++) out[q] += (haze[q] - out[q]) * t;
      }
      if (y > WATER_Y) water(frame - ENTRY_FRAME, x, y, z, out, camera);
    },
    tone(out) {
      for (let q = 0; q < 3; q++) {
        const v = out[q] * 0.98;
        out[q] = v < 0.6 ? v : 0.6 + 0.4 * (1 - Math.exp(-(v - 0.6) / 0.4));
      }
    },
  };
}
