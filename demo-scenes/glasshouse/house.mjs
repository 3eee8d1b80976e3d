/**
 * Iron, glass and floor. The nave is 180 wide and runs from behind the eye's window to z = 270; its
 * roof is a half circle sprung from upright side walls.
 */
import { hex, scaled } from '../shared/colour.mjs';
import { BRICK, FLOOR, GLASS, IRON, SOIL, STONE } from './light.mjs';

const HALF = 90;
export const FLOOR_Y = 96;
const SPRING_Y = -24;
export const END_Z = 270;
export const FRONT_Z = -126;
const PATH = 36;

const PAINT = hex('#eef0e2');
const GREEN = hex('#5f9a86');
const PANE = hex('#d4ecec');

/** A point on the cross-section: s from 0 (left foot) over the roof to 1 (right foot), in the roof only. */
const roof = (s, r = HALF) => [-Math.cos(Math.PI * s) * r, SPRING_Y - Math.sin(Math.PI * s) * r];

export function buildHouse(mesh) {
  floor(mesh);
  for (const z of [-40, 22, 84, 146, 208]) arch(mesh, z, 2.4);
  glazing(mesh);
  endWall(mesh);
}

function floor(mesh) {
  mesh.quad(
    [-PATH, FLOOR_Y, FRONT_Z],
    [PATH, FLOOR_Y, FRONT_Z],
    [PATH, FLOOR_Y, END_Z],
    [-PATH, FLOOR_Y, END_Z],
    hex('#d0c0a0'),
    FLOOR,
    30,
    150,
  );
  for (const hand of [-1, 1]) {
    const inner = hand * PATH;
    const kerb = hand * (PATH + 4);
    mesh.box(
      [Math.min(inner, kerb), FLOOR_Y - 7, FRONT_Z],
      [Math.max(inner, kerb), FLOOR_Y, END_Z],
      hex('#c9bfa8'),
      STONE,
      4,
    );
    mesh.quad(
      [kerb, FLOOR_Y - 5, FRONT_Z],
      [hand * HALF, FLOOR_Y - 5, FRONT_Z],
      [hand * HALF, FLOOR_Y - 5, END_Z],
      [kerb, FLOOR_Y - 5, END_Z],
      hex('#4a3526'),
      SOIL,
      16,
      90,
    );
    // A low brick wall carries the glass.
    mesh.quad(
      [hand * HALF, FLOOR_Y - 34, FRONT_Z],
      [hand * HALF, FLOOR_Y - 34, END_Z],
      [hand * HALF, FLOOR_Y, END_Z],
      [hand * HALF, FLOOR_Y, FRONT_Z],
      hex('#b5674a'),
      BRICK,
      90,
      10,
    );
    mesh.box(
      [hand * HALF - 2.5, FLOOR_Y - 37, FRONT_Z],
      [hand * HALF + 2.5, FLOOR_Y - 34, END_Z],
      hex('#d8d0bc'),
      STONE,
      8,
    );
  }
}

/** One iron arch: column, capital, a rib of two curved bars with a lattice of rings between them. */
function arch(mesh, z, thick) {
  const colour = () => PAINT;
  for (const hand of [-1, 1]) {
    const x = hand * (HALF - 3);
    const column = Array.from({ length: 13 }, (_, i) => [
      x,
      FLOOR_Y - 6 - (i / 12) * (FLOOR_Y - 6 - SPRING_Y),
      z,
    ]);
    mesh.tube(
      column,
      (v) => (v > 0.93 ? 4.2 : v < 0.08 ? 4 : 2.2),
      10,
      IRON,
      (v) => (v > 0.9 || v < 0.1 ? GREEN : PAINT),
    );
    // A scrolled bracket under the rib.
    const scroll = Array.from({ length: 15 }, (_, i) => {
      const a = (i / 14) * 4.4;
      const r = 13 * (1 - i / 19);
      return [hand * (HALF - 5 - 13 + r * Math.cos(a)), SPRING_Y + 2 + r * Math.sin(a) * 0.9, z];
    });
    mesh.tube(
      scroll,
      () => 0.85,
      6,
      IRON,
      () => GREEN,
    );
  }
  const bar = (r, w) => {
    const line = Array.from({ length: 49 }, (_, i) => [...roof(i / 48, r), z]);
    mesh.tube(line, () => w, 8, IRON, colour);
  };
  bar(HALF, thick * 0.75);
  bar(HALF - 9, thick * 0.5);
  for (let i = 0; i < 24; i++) {
    const [x, y] = roof((i + 0.5) / 24, HALF - 4.6);
    const ring = Array.from({ length: 13 }, (_, k) => [
      x + 3.4 * Math.cos((k * Math.PI) / 6),
      y + 3.4 * Math.sin((k * Math.PI) / 6),
      z,
    ]);
    mesh.tube(
      ring,
      () => 0.55,
      5,
      IRON,
      () => GREEN,
    );
  }
}

/** Thin bars over roof and walls, and the panes between them. */
function glazing(mesh) {
  const bar = (line, w) =>
    mesh.tube(
      line,
      () => w,
      5,
      IRON,
      () => PAINT,
    );
  for (let z = FRONT_Z; z < END_Z; z += 62 / 5) {
    bar(
      Array.from({ length: 33 }, (_, i) => [...roof(i / 32, HALF + 1), z]),
      0.55,
    );
    for (const hand of [-1, 1])
      bar(
        [
          [hand * HALF, SPRING_Y, z],
          [hand * HALF, 20, z],
          [hand * HALF, FLOOR_Y - 36, z],
        ],
        0.55,
      );
  }
  const run = (x, y, w) =>
    bar(
      Array.from({ length: 20 }, (_, i) => [x, y, FRONT_Z + ((END_Z - FRONT_Z) * i) / 19]),
      w,
    );
  for (let i = 0; i <= 12; i++)
    run(...roof(i / 12, HALF + 0.5), i === 0 || i === 12 || i === 6 ? 2 : 0.9);
  for (const hand of [-1, 1]) for (const y of [2, 30]) run(hand * HALF, y, 0.9);
  mesh.surface(24, 8, GLASS, (u, v) => {
    const tone = 0.72 + 0.4 * Math.abs(Math.sin(u * 9 + v * 2));
    return {
      p: [...roof(u, HALF + 1.5), FRONT_Z + (END_Z - FRONT_Z) * v],
      c: scaled(PANE, tone),
      n: [0, 1, 0],
    };
  });
  for (const hand of [-1, 1]) {
    mesh.surface(1, 8, GLASS, (u, v) => ({
      p: [
        hand * (HALF + 0.5),
        SPRING_Y + (FLOOR_Y - 36 - SPRING_Y) * u,
        FRONT_Z + (END_Z - FRONT_Z) * v,
      ],
      c: scaled(PANE, 0.8 + 0.2 * v),
      n: [-hand, 0, 0],
    }));
  }
}

/** A sunburst over a pair of open doors. */
function endWall(mesh) {
  const z = END_Z;
  const bar = (line, w, c = PAINT) =>
    mesh.tube(
      line,
      () => w,
      6,
      IRON,
      () => c,
    );
  const half = (r, n = 32) => Array.from({ length: n + 1 }, (_, i) => [...roof(i / n, r), z]);
  bar(half(HALF), 2.4);
  bar(half(HALF - 26), 1.1);
  bar(half(40), 1.3);
  bar(half(14, 16), 1.6, GREEN);
  for (let i = 1; i < 16; i++)
    bar(
      [
        [...roof(i / 16, 14), z],
        [...roof(i / 16, HALF), z],
      ],
      i % 2 ? 0.6 : 1,
    );
  mesh.box([-HALF, SPRING_Y - 2, z - 2], [HALF, SPRING_Y + 2.5, z + 2], PAINT, IRON, 12);
  for (const hand of [-1, 1]) {
    for (const x of [24, 46, 68])
      bar(
        [
          [hand * x, SPRING_Y, z],
          [hand * x, FLOOR_Y, z],
        ],
        x === 24 ? 2.2 : 0.8,
      );
    for (const y of [2, 30])
      bar(
        [
          [hand * 24, y, z],
          [hand * HALF, y, z],
        ],
        0.8,
      );
    mesh.box(
      [Math.min(hand * 26, hand * HALF), FLOOR_Y - 36, z - 1.5],
      [Math.max(hand * 26, hand * HALF), FLOOR_Y, z + 1.5],
      hex('#b5674a'),
      BRICK,
      8,
    );
    // The leaf of the door stands open into the house.
    const hinge = [hand * 23, z];
    const far = [hand * 30, z - 22];
    const post = (at, w) =>
      bar(
        [
          [at[0], SPRING_Y + 6, at[1]],
          [at[0], FLOOR_Y - 1, at[1]],
        ],
        w,
        GREEN,
      );
    post(hinge, 1);
    post(far, 1);
    for (const y of [SPRING_Y + 6, 10, 44, 70, FLOOR_Y - 1])
      bar(
        [
          [hinge[0], y, hinge[1]],
          [far[0], y, far[1]],
        ],
        0.9,
        GREEN,
      );
  }
}
