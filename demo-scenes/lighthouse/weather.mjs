/** Materials, light and fog of the lighthouse scene. */
import { hex, mix, ramp, smooth } from '../shared/colour.mjs';
import { cellValue, cloudNoise, noise } from '../shared/prng.mjs';
import { normalise } from '../shared/vector.mjs';
import { landY, SEA_Y } from './land.mjs';
import { LAMP } from './place.mjs';

export const LAND = 0,
  LEAF = 1,
  PETAL = 2,
  TOWER = 3,
  PLAIN = 4,
  SEA = 5,
  SKY = 6,
  SLATE = 7,
  GLOW = 8,
  FEATHER = 9,
  FAR = 10;

const set = (c, colour, k = 1) => {
  for (let q = 0; q < 3; q++) c[q] = colour[q] * k;
};

const GRASS = [hex('#4f7a36'), hex('#7a9a48')];
const ROCK = [hex('#5d5048'), hex('#8d7660'), hex('#b59a78')];

/** Turf where the ground is level, layered rock where it is steep. */
function paintLand(p, n, c) {
  const level = -n[1] / Math.sqrt(n[0] * n[0] + n[1] * n[1] + n[2] * n[2]);
  // The knoll at the viewer's feet (z < −20) is turf throughout.
  const turf =
    p[2] < -20
      ? 0.92
      : smooth(0.62, 0.8, level + 0.3 * (noise(p[0] * 0.25, p[2] * 0.25, 4) - 0.5)) *
        smooth(95, 88, p[1]);
  const layer = noise(p[0] * 0.05, p[1] * 0.4 + 3 * noise(p[0] * 0.09, p[2] * 0.09), p[2] * 0.05);
  const crack =
    0.5 * noise(p[0] * 0.45, p[1] * 0.1, p[2] * 0.45) +
    0.5 * noise(p[0] * 0.9, p[1] * 0.8, p[2] * 0.9);
  const rock = mix(
    mix(ROCK[0], ROCK[1], smooth(0.2, 0.6, layer)),
    ROCK[2],
    smooth(0.55, 0.8, layer) * smooth(0.2, 0.7, crack),
  );
  const green = mix(GRASS[0], GRASS[1], cloudNoise(p[0] * 0.12, p[2] * 0.12, 0, 3));
  const wet = p[2] < -20 ? 0.8 : 0.55 + 0.45 * smooth(99, 92, p[1]);
  set(c, mix(rock, green, turf), wet * (0.85 + 0.3 * crack));
}

const WATER = [
  [0, hex('#15597a')],
  [0.4, hex('#1f7c96')],
  [0.7, hex('#49aab4')],
  [1, hex('#a6dcd8')],
];
const FOAM = hex('#f4fbf6');

/** Long low waves, whitecaps, and foam where the water meets the land. */
function paintSea(p, n, c) {
  const [x, , z] = p;
  const far = smooth(-60, 340, z);
  const swell = cloudNoise(x / 26 + 0.02 * z, z / 8, 0, 4);
  let colour = ramp(WATER, 0.1 + 0.95 * smooth(0.3, 0.72, swell) * (1 - 0.3 * far) + 0.3 * far);
  const cap = smooth(0.66, 0.72, cloudNoise(x / 13 + 40, z / 3.6, 3, 3)) * smooth(0.5, 0.6, swell);
  const shore = landY(x, z) - SEA_Y;
  const lap =
    smooth(13, 1, shore + 9 * (noise(x / 5, z / 4) - 0.5)) *
    (0.45 + 0.55 * smooth(0.35, 0.6, noise(x / 4, z / 2.5, 2)));
  colour = mix(colour, FOAM, Math.min(1, 0.85 * cap + lap));
  set(c, colour);
}

const AIR = [
  [-330, hex('#2f7fc0')],
  [-200, hex('#5aa5d6')],
  [-60, hex('#9fd0e4')],
  [60, hex('#e8ead2')],
  [100, hex('#fbe3bd')],
];
const CLOUD = [hex('#ffffff'), hex('#c4d6e2')];

function paintSky(p, n, c) {
  const [x, y] = p;
  const heap = cloudNoise(x / 95 + 9.3, y / 46 + 2, 0, 5);
  const under = cloudNoise(x / 95 + 9.3, (y - 9) / 46 + 2, 0, 5);
  const body = smooth(0.5, 0.6, heap) * smooth(70, 10, y);
  const shade = smooth(0.0, 0.1, under - heap + 0.03);
  set(c, mix(ramp(AIR, y), mix(CLOUD[0], CLOUD[1], 0.8 * shade), 0.92 * body));
}

const WHITE = hex('#f6f1e6');
const RED = hex('#c8402f');

/** Two red bands on a whitewashed tower, courses of stone just showing. */
function paintTower(p, n, c) {
  const up = LAMP[1] - p[1];
  const band =
    smooth(-0.3, 0.3, 12 - Math.abs(up + 42)) + smooth(-0.3, 0.3, 12 - Math.abs(up + 90));
  const row = Math.floor(p[1] / 4.2);
  const course = smooth(0.02, 0.1, Math.abs(p[1] / 4.2 - row - 0.5)) * 0.08 + 0.92;
  set(c, mix(WHITE, RED, Math.min(1, band)), course * (0.94 + 0.1 * noise(p[0] * 0.4, p[1] * 0.2)));
}

const paintSlate = (p, n, c) => {
  const row = Math.floor(p[1] * 0.7);
  const one = cellValue(Math.floor(p[0] * 0.5 + (row & 1) * 0.5), row);
  for (let q = 0; q < 3; q++) c[q] *= 0.75 + 0.5 * one;
};

const materials = [
  { paint: paintLand },
  { leafy: true, through: 0.4 },
  { leafy: true, through: 0.5 },
  { paint: paintTower },
  { shine: 0.1, gloss: 30 },
  { paint: paintSea, glow: 0.95 },
  { paint: paintSky, glow: 1.05 },
  { paint: paintSlate },
  { glow: 1 },
  { leafy: true, through: 0.25 },
  {},
];

const FOG = [hex('#e9eef0'), hex('#c3d0d8')];
const LAMPLIGHT = [1.0, 0.72, 0.32];

/** Fog of step `frame`: how far it has come, how high it stands, and how much the lamp shows. */
function fogAt(frame) {
  const t = frame / 11;
  return {
    amount: smooth(0, 0.12, t),
    frontZ: 330 - 430 * t,
    perMm: 0.0052 + 0.004 * t,
    topY: 66 - 330 * t ** 1.15,
    lamp: smooth(0.3, 0.95, t),
    dim: 1 - 0.3 * smooth(0.2, 1, t),
  };
}

export function stageAt(frame) {
  const fog = fogAt(frame);
  return {
    materials,
    sun: {
      toward: normalise([-0.62, -0.62, -0.5]),
      colour: [2.35, 2.0, 1.5],
      softMm: 1,
      biasMm: 0.6,
    },
    sky: {
      sky: (d) =>
        d[1] < 0.05
          ? mix([0.98, 0.92, 0.78], [0.5, 0.72, 1.0], Math.min(1, 0.05 - d[1]))
          : [0.24, 0.3, 0.3],
      bounce: [0.14, 0.15, 0.14],
      directions: 44,
    },
    air: (x, y, z, out, camera) => breathe(fog, x, y, z, out, camera),
    tone(out) {
      const grey = out[0] * 0.2126 + out[1] * 0.7152 + out[2] * 0.0722;
      for (let q = 0; q < 3; q++) {
        const v = Math.max(0, grey + (out[q] - grey) * 1.06);
        out[q] = v < 0.6 ? v : 0.6 + 0.4 * (1 - Math.exp(-(v - 0.6) / 0.4));
      }
    },
  };
}

/** Fog between the eye and a place, then the lamp's light scattered in it. */
function breathe(fog, x, y, z, out, camera) {
  if (fog.amount > 0) {
    const wisp = cloudNoise(x / 60 + fog.frontZ / 90, y / 34, z / 120, 3) - 0.5;
    const low = smooth(fog.topY - 75, fog.topY + 45, y + 110 * wisp);
    const past = z - fog.frontZ + 130 * wisp;
    const length = past > 60 ? past : past < -60 ? 0 : ((past + 60) * (past + 60)) / 240;
    const t = (1 - Math.exp(-fog.perMm * length)) * low * fog.amount;
    const white = mix(FOG[1], FOG[0], smooth(90, -130, y + 60 * wisp));
    for (let q = 0; q < 3; q++) out[q] += (white[q] * fog.dim - out[q]) * t;
  }
  if (fog.lamp > 0) addLamp(fog.lamp, x, y, z, out, camera);
}

/** Halo and two beams, in the plane of the lamp, as seen along this line of sight. */
function addLamp(strength, x, y, z, out, camera) {
  const k = (camera.distance + LAMP[2]) / (camera.distance + z);
  const dx = camera.xMm + (x - camera.xMm) * k - LAMP[0];
  const dy = y * k - LAMP[1];
  const r = Math.sqrt(dx * dx + dy * dy);
  const halo = 0.9 * Math.exp(-r / 7) + 0.34 * Math.exp(-r / 34);
  const off = Math.abs(dy - dx * -0.07);
  const wide = 3.5 + Math.abs(dx) * 0.12;
  const beam =
    0.5 *
    Math.exp(-((off / wide) ** 2)) *
    Math.exp(-Math.abs(dx) / 120) *
    smooth(2, 12, Math.abs(dx));
  // What stands in front of the lamp has less lit fog before it.
  const before = z > LAMP[2] - 14 ? 1 : 0.25;
  for (let q = 0; q < 3; q++) out[q] += LAMPLIGHT[q] * strength * before * (halo + beam);
}
