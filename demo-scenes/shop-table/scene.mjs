/**
 * A table in the gift shop: pots and a lantern in front, a model of the lighthouse on the key plane, the window with the
 * sea behind, and a kingfisher that hangs from a thread and turns. Axes of the other scenes: x right, y down, z away,
 * millimetres; the table's top is y = 0.
 */
import { drawBird } from '../kingfisher/bird.mjs';
import { hex, mix, scaled } from '../shared/colour.mjs';
import { Mesh } from '../shared/mesh.mjs';
import { clump, crown, flower } from '../shared/plants.mjs';
import { makeRandom } from '../shared/prng.mjs';

const WOOD = 0;
const LEAF = 1;
const CLAY = 2;
const PAINT = 3;
const BRASS = 4;
const PANE = 5;

/** The bird's own materials come after these, whatever their numbers are there. */
const BIRD_FROM = 6;

export const materials = [
  { name: 'wood', roughness: 0.7 },
  { name: 'leaf', roughness: 0.55 },
  { name: 'clay', roughness: 0.9 },
  { name: 'paint', roughness: 0.4 },
  { name: 'brass', roughness: 0.3, metal: 0.9 },
  { name: 'pane', roughness: 0.1, clear: 0.15 },
  { name: 'feathers', roughness: 0.6 },
  { name: 'bill', roughness: 0.35 },
];

const OAK = hex('#a9794b');
const LIME = hex('#efe9dc');
const SEA = hex('#3f86a8');
const SKY = hex('#bcdcea');
const RED = hex('#c2402f');

const planks = (mesh) => {
  for (let i = 0; i < 6; i += 1) {
    const z = -260 + i * 90;
    const tone = scaled(OAK, 0.9 + 0.22 * ((i * 0.618) % 1));
    mesh.box([-340, 0, z], [340, 18, z + 88], tone, WOOD, 120);
  }
};

/** The wall behind, with a window in the middle and the sea beyond it. */
const wall = (mesh) => {
  const z = 330;
  for (const [left, right, top, bottom] of [
    [-520, -190, -560, 60],
    [190, 520, -560, 60],
    [-190, 190, -560, -430],
    [-190, 190, -120, 60],
  ])
    mesh.box([left, top, z], [right, bottom, z + 14], LIME, CLAY, 150);
  const beam = (a, b) => mesh.box(a, b, scaled(OAK, 0.7), WOOD, 100);
  for (const x of [-190, -6, 178]) beam([x, -430, z - 6], [x + 12, -120, z + 8]);
  for (const y of [-432, -280, -128]) beam([-190, y, z - 6], [190, y + 10, z + 8]);
  mesh.quad([-190, -430, z], [190, -430, z], [190, -120, z], [-190, -120, z], LIME, PANE);
  mesh.surface(1, 8, CLAY, (u, v) => ({
    p: [-900 + 1800 * u, -760 + 700 * v, 900],
    c: mix(hex('#8fc3e2'), SKY, v),
    n: [0, 0, -1],
  }));
  mesh.surface(1, 4, CLAY, (u, v) => ({
    p: [-900 + 1800 * u, -230 + 260 * v, 880 - 300 * v],
    c: mix(scaled(SEA, 1.3), SEA, v),
    n: [0, -1, 0],
  }));
};

const lighthouse = (mesh) => {
  const rings = [27, 30, 33, 36, 40, 44];
  const HIGH = 44;
  for (let i = 0; i < 5; i += 1) {
    const band = [
      [rings[i], (i - 5) * HIGH],
      [rings[i + 1], (i - 4) * HIGH],
    ];
    mesh.lathe(0, 0, band, 36, PAINT, () => (i % 2 === 0 ? LIME : RED));
  }
  mesh.lathe(
    0,
    0,
    [
      [0, -226],
      [36, -226],
      [36, -220],
      [0, -220],
    ],
    36,
    BRASS,
    () => hex('#e0b65a'),
  );
  mesh.lathe(
    0,
    0,
    [
      [20, -262],
      [20, -226],
    ],
    12,
    PAINT,
    () => hex('#ffe9a8'),
  );
  mesh.lathe(
    0,
    0,
    [
      [0, -296],
      [10, -282],
      [26, -262],
      [0, -262],
    ],
    24,
    PAINT,
    () => scaled(RED, 0.8),
  );
};

const pot = (mesh, x, z, size) =>
  mesh.lathe(
    x,
    z,
    [
      [0, -0.86],
      [0.9, -0.86],
      [1, -1],
      [1.06, -1],
      [1.06, -0.8],
      [0.98, -0.78],
      [0.72, 0],
      [0, 0],
    ].map(([r, y]) => [r * size, y * size * 1.5]),
    28,
    CLAY,
    (u, v) => scaled(hex('#c8714a'), 0.85 + 0.3 * v),
  );

const plants = (mesh) => {
  const random = makeRandom(7);
  pot(mesh, -170, -120, 44);
  crown(mesh, LEAF, random, [-170, -60, -120], 14, {
    length: 150,
    droop: 0.5,
    pairs: 11,
    leaflet: 30,
    width: 7,
    rise: [0.5, 1.35],
    colours: [hex('#4f8f3a'), hex('#6fae4a'), hex('#3c7a3c')],
  });
  pot(mesh, 165, 40, 38);
  clump(mesh, LEAF, random, [165, -52, 40], 30, {
    length: 105,
    width: 15,
    rise: [0.5, 1.5],
    droop: 0.45,
    steps: 6,
    fold: 0.3,
    colours: [hex('#3f7f6a'), hex('#5aa07a'), hex('#78b46a')],
  });
  pot(mesh, 95, -185, 24);
  for (let i = 0; i < 11; i += 1) {
    const [x, z] = [95 + random.spread(24), -185 + random.spread(24)];
    const y = -52 - random.between(6, 36);
    flower(
      mesh,
      LEAF,
      random,
      [x, y, z],
      [random.spread(0.5), -1, -0.7],
      15,
      hex('#f0c23c'),
      hex('#7a4a1a'),
      7,
    );
  }
  clump(mesh, LEAF, random, [95, -32, -185], 16, {
    length: 40,
    width: 8,
    rise: [0.6, 1.4],
    droop: 0.3,
    steps: 4,
    fold: 0.3,
    colours: [hex('#5c9a4a')],
  });
};

const lantern = (mesh) => {
  const [x, z] = [-60, -215];
  const brass = () => hex('#d9a441');
  mesh.lathe(
    x,
    z,
    [
      [0, -6],
      [24, -6],
      [26, 0],
      [0, 0],
    ],
    24,
    BRASS,
    brass,
  );
  mesh.lathe(
    x,
    z,
    [
      [0, -88],
      [6, -82],
      [22, -66],
      [24, -62],
      [0, -62],
    ],
    24,
    BRASS,
    brass,
  );
  for (let i = 0; i < 6; i += 1) {
    const a = (i / 6) * 2 * Math.PI;
    const foot = [x + 21 * Math.sin(a), -6, z - 21 * Math.cos(a)];
    mesh.tube([foot, [foot[0], -64, foot[2]]], () => 1.6, 6, BRASS, brass);
  }
  mesh.lathe(
    x,
    z,
    [
      [0, -40],
      [8, -38],
      [8, -6],
    ],
    16,
    PAINT,
    () => hex('#f6ecd2'),
  );
};

const table = () => {
  const mesh = new Mesh();
  planks(mesh);
  wall(mesh);
  lighthouse(mesh);
  plants(mesh);
  lantern(mesh);
  return mesh;
};

/** Two and a half times the size of the one in the dive, about its own middle. */
const bird = () => {
  const mesh = new Mesh();
  drawBird(mesh, { at: [0, 0, 0], lean: -8, gaze: 4, hand: -1, open: 1, flap: 24, sweep: 0.2 });
  const times = (list, k) => list.map((value) => value * k);
  mesh.positions = times(mesh.positions, 2.1);
  const numbers = [...new Set(mesh.materials)].sort((a, b) => a - b);
  mesh.materials = mesh.materials.map((one) => BIRD_FROM + Math.min(1, numbers.indexOf(one)));
  mesh.tube(
    [
      [0, -10, 0],
      [0, -420, 0],
    ],
    () => 0.8,
    5,
    BIRD_FROM,
    () => hex('#6a6a6a'),
  );
  return mesh;
};

/** Where the bird hangs, metres, glTF's axes. */
const HANGS = [0.13, 0.33, 0.13];
const TURN_SECONDS = 4;

export const scene = () => ({
  parts: [
    { name: 'table', mesh: table() },
    { name: 'kingfisher', mesh: bird(), at: HANGS },
  ],
  camera: {
    name: 'Counter',
    at: [0, 0.2, 1.05],
    perspective: { yfov: 0.62, aspectRatio: 0.8, znear: 0.01, zfar: 20 },
  },
  turning: {
    name: 'The kingfisher turns',
    node: 1,
    seconds: [0, 1, 2, 3, 4].map((step) => (step / 4) * TURN_SECONDS),
    // A quarter to either side and back, about the upright.
    turns: [0, 1, 0, -1, 0].map((side) => {
      const half = (side * Math.PI) / 8;
      return [0, Math.sin(half), 0, Math.cos(half)];
    }),
  },
});
