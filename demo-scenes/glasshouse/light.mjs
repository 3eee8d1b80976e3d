/** Materials, sun, sky and tone of the glasshouse. A material's number is its place in the list. */
import { hex, mix, ramp, smooth } from '../shared/colour.mjs';
import { cellValue, cloudNoise, noise } from '../shared/prng.mjs';
import { normalise } from '../shared/vector.mjs';

export const IRON = 0,
  LEAF = 1,
  PETAL = 2,
  CLAY = 3,
  STONE = 4,
  FLOOR = 5,
  SOIL = 6,
  GLASS = 7,
  SKY = 8,
  BRASS = 9,
  FAR = 10,
  BRICK = 11;

const times = (c, k) => {
  c[0] *= k;
  c[1] *= k;
  c[2] *= k;
};

const TILES = [hex('#d9c3a0'), hex('#b8694a'), hex('#5d7f7c'), hex('#e8dcc4')];
const GROUT = hex('#8d8172');

/** Tiles on the diagonal, pale and terracotta, with a small blue-green inset where four meet. */
function paintFloor(p, n, c) {
  const size = 9.5;
  const a = (p[0] + p[2]) / size + 100;
  const b = (p[0] - p[2]) / size + 100;
  const fa = a - Math.floor(a);
  const fb = b - Math.floor(b);
  const da = Math.min(fa, 1 - fa);
  const db = Math.min(fb, 1 - fb);
  let tile = (Math.floor(a) + Math.floor(b)) & 1 ? TILES[1] : TILES[0];
  if (da + db < 0.26) tile = TILES[2];
  const edge = da + db < 0.26 ? 0.26 - da - db : Math.min(da, db, da + db - 0.26);
  const wear = 0.86 + 0.22 * cellValue(a, b) + 0.16 * (noise(p[0] * 0.6, p[2] * 0.6) - 0.5);
  const colour = mix(GROUT, tile, smooth(0.012, 0.05, edge));
  for (let q = 0; q < 3; q++) c[q] = colour[q] * wear;
}

function paintBrick(p, n, c) {
  const along = Math.abs(n[0]) > 0.7 ? p[2] : p[0];
  if (Math.abs(n[1]) > 0.7) return times(c, 0.9 + 0.2 * noise(p[0], p[2]));
  const row = Math.floor(p[1] / 3.4 + 50);
  const x = along / 9 + (row & 1) * 0.5 + 50;
  const fx = x - Math.floor(x);
  const fy = p[1] / 3.4 + 50 - row;
  const joint = Math.min(
    smooth(0.02, 0.07, Math.min(fx, 1 - fx)),
    smooth(0.06, 0.16, Math.min(fy, 1 - fy)),
  );
  times(c, (0.78 + 0.4 * cellValue(Math.floor(x), row)) * (0.55 + 0.45 * joint));
}

const SKY_STOPS = [
  [-250, hex('#4f95c4')],
  [-120, hex('#86bfdc')],
  [-45, hex('#b9dde6')],
  [-12, hex('#e9e6cf')],
  [2, hex('#f6d9a6')],
];
const CLOUD = hex('#fffaf0');
const SEA = [hex('#7fb9c4'), hex('#3f8fa6')];

/** The world outside: sky, a bright horizon, the sea under it. */
function paintSky(p, n, c) {
  const [x, y] = p;
  let colour;
  if (y < 4) {
    colour = ramp(SKY_STOPS, y);
    const puff = smooth(0.5, 0.72, cloudNoise(x / 70 + 3, y / 26, 0, 4)) * smooth(-10, -60, y);
    colour = mix(colour, CLOUD, 0.85 * puff);
  } else {
    const wave = noise(x / 16, y * 1.6) > 0.62 ? 0.35 : 0;
    colour = mix(mix(SEA[0], SEA[1], smooth(4, 26, y)), CLOUD, wave * 0.6);
  }
  for (let q = 0; q < 3; q++) c[q] = colour[q];
}

const paintClay = (p, n, c) => times(c, 0.9 + 0.2 * noise(p[0] * 0.3, p[1] * 1.4, p[2] * 0.3));
const paintStone = (p, n, c) =>
  times(c, 0.86 + 0.28 * cloudNoise(p[0] * 0.35, p[1] * 0.35, p[2] * 0.35, 3));
const paintSoil = (p, n, c) => times(c, 0.6 + 0.8 * noise(p[0] * 0.7, p[2] * 0.7));

const HAZE = hex('#f6ead2');
const WARM = [1.0, 0.84, 0.58];

export const stage = {
  materials: [
    { shine: 0.12, gloss: 24 },
    { leafy: true, through: 0.75, shine: 0.1, gloss: 18 },
    { leafy: true, through: 0.6 },
    { paint: paintClay },
    { paint: paintStone },
    { paint: paintFloor, shine: 0.05, gloss: 40 },
    { paint: paintSoil },
    // Two of the nine samples in a pixel: a pane is one fifth there, and the picture behind it stays sharp.
    { cover: 0b001000100, glow: 1 },
    { paint: paintSky, glow: 1.12 },
    { shine: 0.7, gloss: 22 },
    { leafy: true, through: 0.4 },
    { paint: paintBrick },
  ],
  sun: {
    toward: normalise([0.62, -0.86, 0.5]),
    colour: [3.3, 2.75, 1.95],
    softMm: 0.8,
    biasMm: 0.5,
  },
  sky: {
    sky: (d) =>
      d[1] < 0.05
        ? mix([1.15, 1.12, 1.0], [0.62, 0.92, 1.25], Math.min(1, -d[1] * 1.1 + 0.05))
        : [0.5, 0.44, 0.32],
    bounce: [0.17, 0.17, 0.12],
    directions: 48,
  },
  /** Warm haze that thickens with depth: it parts the near leaves from the far ones. */
  air(x, y, z, out, camera, material) {
    if (material.glow) return;
    const t = 1 - Math.exp(-Math.max(0, z + 20) / 1500);
    for (let q = 0; q < 3; q++) out[q] += (HAZE[q] * 1.05 - out[q]) * t;
  },
  shafts: { fromZ: -60, density: 0.00016, softMm: 2.2, tint: WARM },
  /** Exposure, a soft shoulder, a little more colour. */
  tone(out) {
    const grey = out[0] * 0.2126 + out[1] * 0.7152 + out[2] * 0.0722;
    for (let q = 0; q < 3; q++) {
      const v = Math.max(0, grey + (out[q] - grey) * 1.08) * 1.0;
      out[q] = v < 0.55 ? v : 0.55 + 0.45 * (1 - Math.exp(-(v - 0.55) / 0.45));
    }
  },
};
