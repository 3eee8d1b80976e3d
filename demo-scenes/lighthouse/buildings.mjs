/** The tower and its keeper's cottage. */
import { hex, mix } from '../shared/colour.mjs';
import { landY } from './land.mjs';
import { LAMP } from './place.mjs';
import { GLOW, PLAIN, SLATE, TOWER } from './weather.mjs';

const WHITE = hex('#f4efe4');
const RED = hex('#b8392b');
const DARK = hex('#3b4a55');

const [X, LAMP_Y, Z] = LAMP;
const TOP = LAMP_Y + 11;
const GROUND = landY(X, Z) + 6;

/** The wall's radius; v: 0 at its top, 1 on the ground. */
const wallAt = (v) => 10.5 + 6.5 * v ** 1.6;

/** Points around the tower's axis. */
const circle = (y, r, n = 25) =>
  Array.from({ length: n }, (_, i) => [
    X + r * Math.sin((i / (n - 1)) * 2 * Math.PI),
    y,
    Z - r * Math.cos((i / (n - 1)) * 2 * Math.PI),
  ]);

/** An iron bar along a list of points. */
const bar = (mesh, points, radius, sides, colour) =>
  mesh.tube(
    points,
    () => radius,
    sides,
    PLAIN,
    () => colour,
  );

/** Bars from each of the points straight up to y. */
const bars = (mesh, points, y, radius, colour) => {
  for (const p of points) bar(mesh, [p, [p[0], y, p[2]]], radius, 5, colour);
};

export function tower(mesh) {
  const rows = 40;
  const profile = Array.from({ length: rows + 1 }, (_, i) => {
    const v = i / rows;
    return [wallAt(v), TOP + (GROUND - TOP) * v];
  });
  mesh.lathe(X, Z, profile, 48, TOWER, () => WHITE);
  gallery(mesh);
  lantern(mesh);
  cap(mesh);
  for (const [y, a] of [
    [-34, -0.25],
    [4, 0.3],
    [40, -0.15],
  ])
    window(mesh, y, a);
}

/** A corbelled ring and its rail. */
function gallery(mesh) {
  const ring = [
    [0, TOP - 3.4],
    [15.5, TOP - 3.4],
    [15.5, TOP - 1.4],
    [13, TOP],
    [11, TOP + 3],
  ];
  mesh.lathe(X, Z, ring, 40, PLAIN, () => hex('#e8dfcc'));
  bar(mesh, circle(TOP - 9.5, 15), 0.45, 6, DARK);
  bar(mesh, circle(TOP - 6.5, 15), 0.3, 6, DARK);
  bars(mesh, circle(TOP - 3, 15, 21), TOP - 9.8, 0.35, DARK);
}

/** The light in its glazing, on a low wall. */
function lantern(mesh) {
  const wall = [
    [8.4, TOP - 7],
    [8.4, TOP - 3.2],
  ];
  mesh.lathe(X, Z, wall, 32, PLAIN, () => RED);
  const light = [
    [0, TOP - 19],
    [5, TOP - 18.6],
    [5.6, TOP - 7.2],
    [0, TOP - 7],
  ];
  mesh.lathe(X, Z, light, 20, GLOW, (u, v) => mix([2.2, 1.7, 0.8], [0.75, 0.95, 0.95], v * 0.25));
  bars(mesh, circle(TOP - 7, 8.2, 13), TOP - 20, 0.42, RED);
  bar(mesh, circle(TOP - 13.5, 8.2), 0.35, 5, RED);
}

/** The roof over the light, its ball and its spike. */
function cap(mesh) {
  const roof = [
    [0, TOP - 32],
    [1.6, TOP - 31.4],
    [2.2, TOP - 29.6],
    [5, TOP - 27.6],
    [8.2, TOP - 23.4],
    [9.8, TOP - 20.4],
    [9.8, TOP - 19.4],
    [8, TOP - 19.2],
  ];
  mesh.lathe(X, Z, roof, 36, PLAIN, () => RED);
  mesh.ball([X, TOP - 33, Z], [1.5, 1.5, 1.5], 12, 8, PLAIN, () => hex('#d9a441'));
  const spike = [
    [X, TOP - 33, Z],
    [X, TOP - 41, Z],
  ];
  mesh.tube(
    spike,
    (v) => 0.4 - 0.25 * v,
    5,
    PLAIN,
    () => DARK,
  );
}

/** A small deep-set window on the tower's front, turned by a. */
function window(mesh, y, a) {
  const r = wallAt((y - TOP) / (GROUND - TOP));
  const at = (dx, dy, out) => {
    const b = a + dx / r;
    return [X + (r + out) * Math.sin(b), y + dy, Z - (r + out) * Math.cos(b)];
  };
  mesh.quad(
    at(-2.4, -4, 0.35),
    at(2.4, -4, 0.35),
    at(2.4, 4, 0.35),
    at(-2.4, 4, 0.35),
    hex('#dcd2bd'),
    PLAIN,
  );
  mesh.quad(
    at(-1.6, -3.2, 0.6),
    at(1.6, -3.2, 0.6),
    at(1.6, 3.2, 0.6),
    at(-1.6, 3.2, 0.6),
    hex('#3a5566'),
    PLAIN,
  );
  mesh.quad(
    at(-0.2, -3.2, 0.8),
    at(0.2, -3.2, 0.8),
    at(0.2, 3.2, 0.8),
    at(-0.2, 3.2, 0.8),
    WHITE,
    PLAIN,
  );
}

export function cottage(mesh, x, z) {
  const y = landY(x, z) + 4;
  const [w, d, h] = [25, 10, 19];
  mesh.box([x - w, y - h, z - d], [x + w, y + 6, z + d], WHITE, PLAIN, 4);
  const ridge = y - h - 13;
  for (const s of [-1, 1]) {
    mesh.quad(
      [x - w - 2, ridge, z],
      [x + w + 2, ridge, z],
      [x + w + 2, y - h + 1.5, z + s * (d + 2)],
      [x - w - 2, y - h + 1.5, z + s * (d + 2)],
      hex('#66788a'),
      SLATE,
      30,
      12,
    );
  }
  for (const s of [-1, 1])
    mesh.surface(4, 4, PLAIN, (u, v) => ({
      p: [x + s * w, ridge + v * (y - h - ridge), z + (u * 2 - 1) * d * v],
      c: WHITE,
      n: [s, 0, 0],
    }));
  for (const cx of [-19, 19])
    mesh.box(
      [x + cx - 3, ridge - 7, z - 2.5],
      [x + cx + 3, ridge + 4, z + 2.5],
      hex('#c98a62'),
      PLAIN,
      3,
    );
  const front = z - d;
  const pane = (px, py, pw, ph, colour) =>
    mesh.box([px - pw, py - ph, front - 0.5], [px + pw, py + ph, front], colour, PLAIN);
  for (const px of [-16, 15]) {
    pane(x + px, y - 10, 4, 4.8, hex('#2f7d8c'));
    mesh.box(
      [x + px - 3.2, y - 14, front - 0.8],
      [x + px + 3.2, y - 6, front],
      hex('#ffd58a'),
      PLAIN,
    );
    mesh.box([x + px - 0.3, y - 14, front - 1], [x + px + 0.3, y - 6, front], WHITE, PLAIN);
    mesh.box([x + px - 3.2, y - 10.3, front - 1], [x + px + 3.2, y - 9.7, front], WHITE, PLAIN);
  }
  mesh.box([x - 3.4, y - 13.5, front - 0.7], [x + 3.4, y + 3, front], hex('#2f7d8c'), PLAIN);
}
