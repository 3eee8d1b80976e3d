/** What grows in the glasshouse and what stands about in it, from the back to the front. */
import { hex, mix, scaled } from '../shared/colour.mjs';
import { clump, crown, flower, frond, heading, leaf } from '../shared/plants.mjs';
import { makeRandom } from '../shared/prng.mjs';
import { FLOOR_Y } from './house.mjs';
import { BRASS, CLAY, LEAF, PETAL, SOIL, STONE } from './light.mjs';

const greens = ['#2f6d36', '#3f8040', '#558f45', '#256044'].map(hex);
const bright = ['#5c9a40', '#79a848', '#4c8c40'].map(hex);
const blue = ['#2f7364', '#3f8775', '#559681'].map(hex);
const fresh = ['#86ad48', '#74a044', '#9cb655'].map(hex);
const TERRACOTTA = hex('#c8714a');
const bed = FLOOR_Y - 5;

export function plant(mesh) {
  const random = makeRandom(1851);
  palm(mesh, random, [-60, bed, 205], 150, 62, greens);
  palm(mesh, random, [62, bed, 165], 128, 66, blue);
  palm(mesh, random, [-64, bed, 95], 112, 68, bright);
  treeFern(mesh, random, [64, bed, 62], 66);
  banana(mesh, random, [-70, bed, 26]);
  underplanting(mesh, random);
  urn(mesh, random);
  pots(mesh, random);
  basket(mesh, random, [42, -74, -84]);
  foreground(mesh, random);
}

function palm(mesh, random, at, height, reach, colours) {
  const lean = random.spread(9);
  const trunk = Array.from({ length: 30 }, (_, i) => {
    const t = i / 29;
    return [at[0] + lean * t * t, at[1] - height * t, at[2]];
  });
  const bark = hex('#9a7a58');
  mesh.tube(trunk, (v) => 3.6 - 1.1 * v + (Math.round(v * 29) % 2) * 0.7, 10, SOIL, (v) => scaled(bark, Math.round(v * 29) % 2 ? 1.3 : 0.85));
  crown(mesh, LEAF, random, trunk[29], 17, {
    length: reach, droop: 0.62, rise: [-0.1, 1.25], pairs: 30, leaflet: 20, width: 2.6, sag: 0.55, sweep: 0.9, colours, stalk: hex('#b5b868'),
  });
}

function treeFern(mesh, random, at, height) {
  const trunk = Array.from({ length: 16 }, (_, i) => [at[0], at[1] - (height * i) / 15, at[2]]);
  mesh.tube(trunk, (v) => 4.4 - v + (Math.round(v * 15) % 2) * 0.6, 10, SOIL, (v) => scaled(hex('#6d4b36'), Math.round(v * 15) % 2 ? 1.2 : 0.8));
  crown(mesh, LEAF, random, trunk[15], 15, {
    length: 58, droop: 0.5, rise: [0.05, 0.95], pairs: 34, leaflet: 13, width: 2.5, sag: 0.25, sweep: 0.35, colours: fresh, stalk: hex('#6d7a3a'),
  });
}

function banana(mesh, random, at) {
  mesh.tube([at, [at[0] + 1, at[1] - 30, at[2]], [at[0] + 3, at[1] - 62, at[2]]], (v) => 5 - 2 * v, 10, LEAF, () => hex('#8fa85c'));
  for (let i = 0; i < 10; i++) {
    leaf(mesh, LEAF, {
      base: [at[0] + 3, at[1] - 60, at[2]], dir: heading(i * 2.4 + 1.15, 0.25 + i * 0.12), length: 66 - i * 1.5, width: 16, droop: 0.75 - i * 0.05,
      fold: 0.35, roll: random.spread(0.3), steps: 14, colour: random.pick(bright), rib: hex('#cdd88c'),
    });
  }
}

/** Low things in the beds: hostas, ferns, grasses, and flowers in drifts of one colour along the kerb. */
function underplanting(mesh, random) {
  const drifts = ['#f06a8a', '#ffb03b', '#fff3e0', '#e8543f', '#c77be0', '#ffd84d'].map(hex);
  for (let z = 255; z > -62; z -= 11) {
    for (const hand of [-1, 1]) {
      for (const x of [hand * random.between(52, 58), hand * random.between(68, 80)]) low(mesh, random, [x, bed, z + random.spread(4)]);
      drift(mesh, random, [hand * 45, bed, z], random.pick(drifts), 10, 11);
    }
  }
}

function low(mesh, random, at) {
  const kind = Math.floor(random.next() * 3);
  if (kind === 0) {
    clump(mesh, LEAF, random, at, 15, { length: 20, width: 9, rise: [0.35, 1.2], droop: 0.45, shape: 'heart', colours: random.pick([bright, blue, fresh]) });
  } else if (kind === 1) {
    for (let i = 0; i < 10; i++) {
      frond(mesh, LEAF, random, {
        base: at, dir: heading(i * 0.63, random.between(0.6, 1.2)), length: random.between(22, 28), droop: 0.5, pairs: 15,
        leaflet: 6.5, width: 1.8, sag: 0.2, sweep: 0.3, colour: random.pick(fresh),
      });
    }
  } else clump(mesh, LEAF, random, at, 20, { length: 28, width: 2.6, rise: [0.7, 1.45], droop: 0.25, colours: random.pick([greens, blue]) });
}

/** A cushion of small leaves with flowers over it. */
function drift(mesh, random, at, colour, count, reach, size = 2.3) {
  clump(mesh, LEAF, random, at, 12, { length: reach * 0.8, width: 3.4, rise: [0.2, 1.1], droop: 0.3, steps: 3, colours: greens });
  for (let i = 0; i < count; i++) {
    const a = random.next() * 6.283;
    const r = Math.sqrt(random.next()) * reach * 0.6;
    const top = [at[0] + r * Math.sin(a), at[1] - reach * random.between(0.55, 0.85) + r * 0.3, at[2] - r * Math.cos(a)];
    flower(mesh, PETAL, random, top, [random.spread(0.5), -0.5, -1], size, colour, hex('#ffe08a'));
  }
}

/** The urn in the middle of the walk, with a fountain of arching leaves. */
function urn(mesh, random) {
  const z = 120;
  const stone = hex('#e2d6bd');
  mesh.box([-13, FLOOR_Y - 5, z - 13], [13, FLOOR_Y, z + 13], stone, STONE, 4);
  mesh.box([-9.5, FLOOR_Y - 34, z - 9.5], [9.5, FLOOR_Y - 5, z + 9.5], stone, STONE, 4);
  mesh.box([-11.5, FLOOR_Y - 38, z - 11.5], [11.5, FLOOR_Y - 34, z + 11.5], stone, STONE, 4);
  const top = FLOOR_Y - 64;
  const outline = [[0, 3], [15.5, 3], [17.5, 1.5], [18.5, 0], [18.5, 2.5], [16, 4], [15, 7], [15.5, 12], [13.5, 17], [9, 20.5], [4.5, 22.5], [3.4, 24], [5.5, 25.6], [8.5, 26.2]];
  mesh.lathe(0, z, outline.map(([r, y]) => [r, top + y - 0.2]), 36, STONE, (u, v) => (v > 0.3 && v < 0.75 ? scaled(stone, 0.93 + 0.14 * Math.abs(Math.sin(u * 18 * Math.PI))) : stone));
  clump(mesh, LEAF, random, [0, top + 2, z], 34, { length: 46, width: 5.4, rise: [0.35, 1.5], droop: 0.55, steps: 8, fold: 0.35, colours: [...fresh, ...blue] });
  for (let i = 0; i < 34; i++) {
    const a = (i / 34) * 6.283;
    flower(mesh, PETAL, random, [17 * Math.sin(a), top - 1 + random.spread(2.5), z - 17 * Math.cos(a)], [Math.sin(a), -0.4, -Math.cos(a) - 0.4], 3, random.pick([hex('#f2557d'), hex('#ff8fa8'), hex('#fff0ea')]), hex('#ffdf7a'));
  }
}

function pot(mesh, [x, y, z], r, h) {
  const rim = r * 1.12;
  mesh.lathe(x, z, [[0, -h + 1.5], [r * 0.95, -h + 1.5], [r, -h], [rim, -h], [rim, -h * 0.78], [r * 0.99, -h * 0.76], [r * 0.95, -h * 0.7], [r * 0.82, -h * 0.3], [r * 0.7, 0]].map(([a, b]) => [a, y + b]), 32, CLAY, (u, v) => (v < 0.22 ? hex('#4a3526') : scaled(TERRACOTTA, 0.9 + 0.2 * Math.abs(v - 0.6))));
}

/** Clay pots on the walk's edge, near the key plane, and a can for watering. */
function pots(mesh, random) {
  const y = FLOOR_Y;
  pot(mesh, [-27, y, 30], 8, 15);
  drift(mesh, random, [-27, y - 14, 30], hex('#ee4f38'), 26, 17, 2.8);
  pot(mesh, [-24, y, 4], 6, 11);
  clump(mesh, LEAF, random, [-24, y - 10, 4], 20, { length: 21, width: 4, rise: [0.4, 1.4], droop: 0.35, colours: fresh });
  pot(mesh, [28, y, 46], 9, 17);
  crown(mesh, LEAF, random, [28, y - 16, 46], 12, { length: 32, droop: 0.5, rise: [0.3, 1.3], pairs: 20, leaflet: 9, width: 1.8, sag: 0.3, sweep: 0.6, colours: bright });
  pot(mesh, [27, y, 14], 6.5, 12);
  drift(mesh, random, [27, y - 11, 14], hex('#ffc23d'), 20, 14, 2.6);
  wateringCan(mesh, [-6, y, -22]);
  pot(mesh, [-29, y, 74], 8, 15);
  clump(mesh, LEAF, random, [-29, y - 14, 74], 26, { length: 30, width: 3, rise: [0.6, 1.5], droop: 0.2, colours: blue });
  pot(mesh, [28, y, 86], 7, 13);
  drift(mesh, random, [28, y - 12, 86], hex('#fff1ea'), 20, 14, 2.6);
}

/** A brass can, just in front of the key plane. */
function wateringCan(mesh, [x, y, z]) {
  const brass = hex('#c9973f');
  const say = () => brass;
  mesh.lathe(x, z, [[0, -14], [5, -14.2], [6.6, -13.4], [6.8, -12.6], [6.4, -12], [7, -6], [7.2, -1], [7.4, -0.4], [7, 0]].map(([r, h]) => [r, y + h]), 28, BRASS, say);
  mesh.tube([[x + 6, y - 4, z], [x + 11, y - 8, z - 1], [x + 15, y - 15, z - 2], [x + 17, y - 18, z - 2.4]], (v) => 1.5 - 0.6 * v, 10, BRASS, say);
  mesh.ball([x + 17.6, y - 19, z - 2.5], [2.6, 1.6, 2.4], 14, 8, BRASS, say);
  const handle = Array.from({ length: 14 }, (_, i) => {
    const a = -0.5 + (i / 13) * 3.4;
    return [x - 5 - 7 * Math.sin(a), y - 10 - 8 * Math.cos(a), z];
  });
  mesh.tube(handle, () => 0.8, 8, BRASS, say);
}

/** Hung from the first arch, well in front of the key plane. */
function basket(mesh, random, at) {
  const [x, y, z] = at;
  const wire = hex('#6c5a3a');
  for (let i = 0; i < 3; i++) {
    const a = i * 2.094 + 0.5;
    mesh.tube([[x + 13 * Math.sin(a), y, z - 13 * Math.cos(a)], [x, y - 40, z]], () => 0.3, 5, BRASS, () => wire);
  }
  mesh.tube([[x, y - 40, z], [x, y - 90, z]], () => 0.5, 5, BRASS, () => wire);
  mesh.lathe(x, z, [[0, 0.5], [13.5, 0], [14, 1], [13, 5], [10, 9.5], [6, 12.5], [0, 14]].map(([r, h]) => [r, y + h]), 28, SOIL, (u, v) => scaled(hex('#8a6a42'), 0.8 + 0.4 * Math.abs(Math.sin(u * 40 + v * 20))));
  clump(mesh, LEAF, random, [x, y, z], 40, { length: 20, width: 4.2, rise: [0, 1.2], droop: 0.8, colours: [...fresh, ...bright] });
  for (let i = 0; i < 15; i++) {
    const a = i * 0.42 * 2.4;
    const start = [x + 13 * Math.sin(a), y, z - 13 * Math.cos(a)];
    const drop = random.between(16, 34);
    for (let k = 0; k < 9; k++) {
      const p = [start[0] + 4 * Math.sin(a) * Math.sin(k / 4), start[1] + (drop * k) / 9, start[2] - 4 * Math.cos(a) * Math.sin(k / 4)];
      leaf(mesh, LEAF, { base: p, dir: heading(a + (k % 2 ? 1.2 : -1.2), 0.1), length: 5, width: 3, droop: 0.5, steps: 3, colour: random.pick(bright) });
    }
  }
  for (let i = 0; i < 46; i++) {
    const a = random.next() * 6.283;
    const r = random.between(4, 15);
    flower(mesh, PETAL, random, [x + r * Math.sin(a), y - 9 + r * 0.75 + random.spread(3), z - r * Math.cos(a)], [Math.sin(a) * 0.7, -0.3, -1], 3.1, random.pick([hex('#d65fd0'), hex('#f08be0'), hex('#8c5fe0')]), hex('#fff2b0'));
  }
}

/** Leaves and butterflies nearest the eye: they frame the view and stand out in front of the print. */
function foreground(mesh, random) {
  for (let i = 0; i < 11; i++) {
    frond(mesh, LEAF, random, {
      base: [-72, bed, -84], dir: heading(-1.2 + i * 0.34, random.between(0.75, 1.25)), length: random.between(52, 66), droop: 0.42, pairs: 26,
      leaflet: 14, width: 3, sag: 0.2, sweep: 0.35, colour: random.pick(greens), steps: 3,
    });
  }
  clump(mesh, LEAF, random, [66, bed, -84], 24, { length: 38, width: 9, rise: [0.5, 1.35], droop: 0.5, fold: 0.22, steps: 10, rib: hex('#a9cbb0'), colours: blue });
  drift(mesh, random, [46, bed, -76], hex('#ff7f9f'), 16, 13);
  drift(mesh, random, [-48, bed, -74], hex('#ffb640'), 16, 13);
  butterfly(mesh, [-30, 22, -96], 0.5, hex('#ff8a1e'));
  butterfly(mesh, [24, 26, -70], -0.6, hex('#2f7fe0'));
  butterfly(mesh, [-14, -34, -50], 0.3, hex('#ffc928'));
}

/** Wings spread towards the eye, tilted by `lean`; dark at the root and along the edge. */
function butterfly(mesh, at, lean, colour) {
  const dark = hex('#3a2014');
  const c = Math.cos(lean);
  const s = Math.sin(lean);
  for (const hand of [-1, 1]) {
    // [angle of the wing from level, length, width]
    for (const [rise, long, wide] of [[0.75, 9.4, 3.6], [-0.55, 6.6, 3.3]]) {
      mesh.surface(10, 6, PETAL, (u, v) => {
        const r = u * long;
        const half = wide * Math.sin(Math.PI * (0.06 + 0.86 * u ** 0.8));
        const a = Math.cos(rise) * r - Math.sin(rise) * half * (v * 2 - 1);
        const b = Math.sin(rise) * r + Math.cos(rise) * half * (v * 2 - 1);
        const edge = Math.max(u, Math.abs(v * 2 - 1) * 0.95);
        const tint = edge > 0.86 ? dark : u < 0.15 ? dark : mix(colour, scaled(colour, 1.4), u);
        return { p: [at[0] + hand * a * c * 0.9 - b * s, at[1] - b * c - hand * a * s * 0.9, at[2] - Math.abs(a) * 0.45], c: tint, n: [hand * -0.3, -0.3, -0.9] };
      });
    }
  }
  const body = (t) => [at[0] + t * s, at[1] + t * c, at[2] - 0.8];
  mesh.tube([body(-3.2), body(-1.5), body(1), body(4)], (v) => 0.75 - 0.4 * v, 6, PETAL, () => dark);
}
