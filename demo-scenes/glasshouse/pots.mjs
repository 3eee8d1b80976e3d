/** What stands on the walk: the urn, clay pots and the can. */
import { hex, scaled } from '../shared/colour.mjs';
import { clump, crown, flower } from '../shared/plants.mjs';
import { blue, bright, drift, fresh } from './greenery.mjs';
import { FLOOR_Y } from './house.mjs';
import { BRASS, CLAY, LEAF, PETAL, STONE } from './light.mjs';

const TERRACOTTA = hex('#c8714a');

/** The urn in the middle of the walk, with a fountain of arching leaves. */
export function urn(mesh, random) {
  const z = 120;
  const stone = hex('#e2d6bd');
  mesh.box([-13, FLOOR_Y - 5, z - 13], [13, FLOOR_Y, z + 13], stone, STONE, 4);
  mesh.box([-9.5, FLOOR_Y - 34, z - 9.5], [9.5, FLOOR_Y - 5, z + 9.5], stone, STONE, 4);
  mesh.box([-11.5, FLOOR_Y - 38, z - 11.5], [11.5, FLOOR_Y - 34, z + 11.5], stone, STONE, 4);
  const top = FLOOR_Y - 64;
  const outline = [
    [0, 3],
    [15.5, 3],
    [17.5, 1.5],
    [18.5, 0],
    [18.5, 2.5],
    [16, 4],
    [15, 7],
    [15.5, 12],
    [13.5, 17],
    [9, 20.5],
    [4.5, 22.5],
    [3.4, 24],
    [5.5, 25.6],
    [8.5, 26.2],
  ];
  mesh.lathe(
    0,
    z,
    outline.map(([r, y]) => [r, top + y - 0.2]),
    36,
    STONE,
    (u, v) =>
      v > 0.3 && v < 0.75
        ? scaled(stone, 0.93 + 0.14 * Math.abs(Math.sin(u * 18 * Math.PI)))
        : stone,
  );
  clump(mesh, LEAF, random, [0, top + 2, z], 34, {
    length: 46,
    width: 5.4,
    rise: [0.35, 1.5],
    droop: 0.55,
    steps: 8,
    fold: 0.35,
    colours: [...fresh, ...blue],
  });
  for (let i = 0; i < 34; i++) {
    const a = (i / 34) * 6.283;
    flower(
      mesh,
      PETAL,
      random,
      [17 * Math.sin(a), top - 1 + random.spread(2.5), z - 17 * Math.cos(a)],
      [Math.sin(a), -0.4, -Math.cos(a) - 0.4],
      3,
      random.pick([hex('#f2557d'), hex('#ff8fa8'), hex('#fff0ea')]),
      hex('#ffdf7a'),
    );
  }
}

function pot(mesh, [x, y, z], r, h) {
  const rim = r * 1.12;
  mesh.lathe(
    x,
    z,
    [
      [0, -h + 1.5],
      [r * 0.95, -h + 1.5],
      [r, -h],
      [rim, -h],
      [rim, -h * 0.78],
      [r * 0.99, -h * 0.76],
      [r * 0.95, -h * 0.7],
      [r * 0.82, -h * 0.3],
      [r * 0.7, 0],
    ].map(([a, b]) => [a, y + b]),
    32,
    CLAY,
    (u, v) => (v < 0.22 ? hex('#4a3526') : scaled(TERRACOTTA, 0.9 + 0.2 * Math.abs(v - 0.6))),
  );
}

/** Clay pots on the walk's edge, near the key plane, and a can for watering. */
export function pots(mesh, random) {
  const y = FLOOR_Y;
  pot(mesh, [-27, y, 30], 8, 15);
  drift(mesh, random, [-27, y - 14, 30], hex('#ee4f38'), 26, 17, 2.8);
  pot(mesh, [-24, y, 4], 6, 11);
  clump(mesh, LEAF, random, [-24, y - 10, 4], 20, {
    length: 21,
    width: 4,
    rise: [0.4, 1.4],
    droop: 0.35,
    colours: fresh,
  });
  pot(mesh, [28, y, 46], 9, 17);
  crown(mesh, LEAF, random, [28, y - 16, 46], 12, {
    length: 32,
    droop: 0.5,
    rise: [0.3, 1.3],
    pairs: 20,
    leaflet: 9,
    width: 1.8,
    sag: 0.3,
    sweep: 0.6,
    colours: bright,
  });
  pot(mesh, [27, y, 14], 6.5, 12);
  drift(mesh, random, [27, y - 11, 14], hex('#ffc23d'), 20, 14, 2.6);
  wateringCan(mesh, [-6, y, -22]);
  pot(mesh, [-29, y, 74], 8, 15);
  clump(mesh, LEAF, random, [-29, y - 14, 74], 26, {
    length: 30,
    width: 3,
    rise: [0.6, 1.5],
    droop: 0.2,
    colours: blue,
  });
  pot(mesh, [28, y, 86], 7, 13);
  drift(mesh, random, [28, y - 12, 86], hex('#fff1ea'), 20, 14, 2.6);
}

/** A brass can, just in front of the key plane. */
function wateringCan(mesh, [x, y, z]) {
  const brass = hex('#c9973f');
  const say = () => brass;
  mesh.lathe(
    x,
    z,
    [
      [0, -14],
      [5, -14.2],
      [6.6, -13.4],
      [6.8, -12.6],
      [6.4, -12],
      [7, -6],
      [7.2, -1],
      [7.4, -0.4],
      [7, 0],
    ].map(([r, h]) => [r, y + h]),
    28,
    BRASS,
    say,
  );
  mesh.tube(
    [
      [x + 6, y - 4, z],
      [x + 11, y - 8, z - 1],
      [x + 15, y - 15, z - 2],
      [x + 17, y - 18, z - 2.4],
    ],
    (v) => 1.5 - 0.6 * v,
    10,
    BRASS,
    say,
  );
  mesh.ball([x + 17.6, y - 19, z - 2.5], [2.6, 1.6, 2.4], 14, 8, BRASS, say);
  const handle = Array.from({ length: 14 }, (_, i) => {
    const a = -0.5 + (i / 13) * 3.4;
    return [x - 5 - 7 * Math.sin(a), y - 10 - 8 * Math.cos(a), z];
  });
  mesh.tube(handle, () => 0.8, 8, BRASS, say);
}
