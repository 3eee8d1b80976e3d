/** What there is to see: the buildings, the boat, the gulls, and the thrift in flower. */
import { hex, mix, scaled } from '../shared/colour.mjs';
import { clump, flower } from '../shared/plants.mjs';
import { makeRandom } from '../shared/prng.mjs';
import { normalise } from '../shared/vector.mjs';
import { cottage, tower } from './buildings.mjs';
import { knollY, SEA_Y } from './land.mjs';
import { FEATHER, LEAF, PETAL, PLAIN } from './weather.mjs';

const WHITE = hex('#f4efe4');

export function buildSights(mesh) {
  tower(mesh);
  cottage(mesh, 66, 82);
  boat(mesh, -50, 104);
  const gulls = [
    [-46, -26, -96, 1.15, 0.3],
    [-66, -70, -30, 1.0, -0.35],
    [62, -92, -62, 1.0, 0.25],
    [-22, -84, 60, 1.0, 0.2],
    [76, -20, 40, 0.8, -0.2],
    [-88, 10, 130, 0.9, 0.4],
  ];
  for (const [x, y, z, size, bank] of gulls) gull(mesh, [x, y, z], size * 11, bank);
  thrift(mesh);
}

function boat(mesh, x, z) {
  const y = SEA_Y;
  mesh.surface(24, 8, PLAIN, (u, v) => {
    const s = u * 2 - 1;
    const beam = 6 * Math.sqrt(Math.max(0, 1 - Math.abs(s) ** 2.4));
    const sheer = -7 - 3.4 * s * s;
    const a = (v - 0.5) * Math.PI;
    return {
      p: [
        x + s * 19 * (1 - 0.12 * (1 - Math.cos(a))),
        y + 1.5 + (sheer - 1.5) * (1 - Math.cos(a)),
        z + beam * Math.sin(a),
      ],
      c: Math.cos(a) < 0.22 ? WHITE : hex('#24506e'),
    };
  });
  mesh.tube(
    [
      [x + 2, y - 4, z],
      [x + 2, y - 52, z],
    ],
    (v) => 0.7 - 0.3 * v,
    6,
    PLAIN,
    () => hex('#8a6238'),
  );
  const sail = (points, colour) =>
    mesh.surface(10, 10, FEATHER, (u, v) => {
      const [a, b, c, d] = points;
      const mixed = [0, 1].map(
        (q) => (a[q] * (1 - u) + b[q] * u) * (1 - v) + (d[q] * (1 - u) + c[q] * u) * v,
      );
      const seam = Math.abs(((v * 5) % 1) - 0.5) > 0.44 ? 0.8 : 1;
      return {
        p: [
          x + mixed[0],
          y + mixed[1],
          z - 4 * Math.sin(Math.PI * u) * Math.sin(Math.PI * (0.15 + 0.7 * v)),
        ],
        c: scaled(colour, seam),
      };
    });
  sail(
    [
      [2.8, -44],
      [15, -54],
      [22, -11],
      [2.8, -12],
    ],
    hex('#c2553a'),
  );
  sail(
    [
      [1.2, -46],
      [1.3, -46],
      [1, -13],
      [-19, -10],
    ],
    hex('#e9d9b4'),
  );
}

/** Wings bent at the wrist, grey above with dark tips. */
function gull(mesh, at, size, bank) {
  const [x, y, z] = at;
  const c = Math.cos(bank);
  const s = Math.sin(bank);
  const place = (a, b, d) => [x + a * c - b * s, y + a * s + b * c, z + d];
  for (const hand of [-1, 1]) {
    mesh.surface(14, 4, FEATHER, (u, v) => {
      const reach = u * size * 1.55;
      const lift = -size * (0.42 * Math.sin(u * 2.1) - 0.22 * u * u);
      const chord = size * 0.36 * (1 - u ** 2.2) + 0.15;
      const tint = u > 0.86 ? hex('#2f3338') : mix(hex('#ffffff'), hex('#aebcc6'), smoothBack(v));
      return {
        p: place(
          hand * reach,
          lift + (v - 0.3) * chord * 0.75,
          (v - 0.3) * chord + u * u * size * 0.3,
        ),
        c: tint,
        n: normalise([hand * 0.15, -0.65, -0.75]),
      };
    });
  }
  mesh.ball(place(0, 0, 0), [size * 0.13, size * 0.15, size * 0.55], 12, 10, FEATHER, () => WHITE);
  mesh.ball(
    place(0, -0.02 * size, -size * 0.5),
    [size * 0.11, size * 0.11, size * 0.13],
    10,
    8,
    FEATHER,
    () => hex('#ffffff'),
  );
  mesh.tube(
    [place(0, 0.03 * size, -size * 0.6), place(0, 0.09 * size, -size * 0.72)],
    (v) => size * (0.04 - 0.03 * v),
    6,
    FEATHER,
    () => hex('#f2a63a'),
  );
}

const smoothBack = (v) => (v > 0.35 ? 1 : v / 0.35);

/** Sea thrift: round pink heads on bare stems over a cushion of needles. */
function thrift(mesh) {
  const random = makeRandom(90210);
  const pinks = ['#f06fa4', '#f590b8', '#e4568f', '#f9b0cb'].map(hex);
  for (let i = 0; i < 46; i++) {
    const hand = i % 2 ? 1 : -1;
    const x = hand < 0 ? random.between(-84, -22) : random.between(34, 88);
    const z = random.between(-108, -56);
    const y = knollY(x, z);
    clump(mesh, LEAF, random, [x, y, z], 16, {
      length: 10,
      width: 1.1,
      rise: [0.3, 1.3],
      droop: 0.3,
      steps: 3,
      colours: ['#5e9a52', '#79ad5c'].map(hex),
    });
    for (let k = 0; k < 2; k++) {
      const head = [x + random.spread(7), y - random.between(12, 24), z + random.spread(5)];
      mesh.tube(
        [[x, y, z], [(x + head[0]) / 2, (y + head[1]) / 2 - 1, (z + head[2]) / 2], head],
        () => 0.4,
        5,
        LEAF,
        () => hex('#8aa05a'),
      );
      const r = random.between(2.6, 3.6);
      const pink = random.pick(pinks);
      mesh.ball(head, [r * 0.75, r * 0.62, r * 0.75], 8, 6, PETAL, () => scaled(pink, 0.55));
      for (let j = 0; j < 15; j++) {
        const a = j * 2.4;
        const h = 1 - (j / 15) * 1.25;
        const w = Math.sqrt(Math.max(0, 1 - h * h));
        const out = [w * Math.sin(a), -h, -w * Math.cos(a)];
        flower(
          mesh,
          PETAL,
          random,
          [head[0] + out[0] * r * 0.75, head[1] + out[1] * r * 0.62, head[2] + out[2] * r * 0.75],
          out,
          r * 0.52,
          scaled(pink, random.between(0.85, 1.2)),
          hex('#fff0c8'),
        );
      }
    }
  }
}
