/** The tower and its keeper's cottage. */
import { hex, mix } from '../shared/colour.mjs';
import { landY } from './land.mjs';
import { LAMP } from './place.mjs';
import { GLOW, PLAIN, SLATE, TOWER } from './weather.mjs';

const WHITE = hex('#f4efe4');
const RED = hex('#b8392b');
const DARK = hex('#3b4a55');

const circle = (x, y, z, r, n = 25) =>
  Array.from({ length: n }, (_, i) => [
    x + r * Math.sin((i / (n - 1)) * 2 * Math.PI),
    y,
    z - r * Math.cos((i / (n - 1)) * 2 * Math.PI),
  ]);

export function tower(mesh) {
  const [x, lampY, z] = LAMP;
  const ground = landY(x, z) + 6;
  const top = lampY + 11;
  const rows = 40;
  const profile = Array.from({ length: rows + 1 }, (_, i) => {
    const v = i / rows;
    return [10.5 + 6.5 * v ** 1.6, top + (ground - top) * v];
  });
  mesh.lathe(x, z, profile, 48, TOWER, () => WHITE);
  // Gallery: a corbelled ring, its rail, then the lantern and its cap.
  mesh.lathe(
    x,
    z,
    [
      [0, top - 3.4],
      [15.5, top - 3.4],
      [15.5, top - 1.4],
      [13, top],
      [11, top + 3],
    ],
    40,
    PLAIN,
    () => hex('#e8dfcc'),
  );
  mesh.tube(
    circle(x, top - 9.5, z, 15),
    () => 0.45,
    6,
    PLAIN,
    () => DARK,
  );
  mesh.tube(
    circle(x, top - 6.5, z, 15),
    () => 0.3,
    6,
    PLAIN,
    () => DARK,
  );
  for (const p of circle(x, top - 3, z, 15, 21))
    mesh.tube(
      [p, [p[0], top - 9.8, p[2]]],
      () => 0.35,
      5,
      PLAIN,
      () => DARK,
    );
  mesh.lathe(
    x,
    z,
    [
      [8.4, top - 7],
      [8.4, top - 3.2],
    ],
    32,
    PLAIN,
    () => RED,
  );
  mesh.lathe(
    x,
    z,
    [
      [0, top - 19],
      [5, top - 18.6],
      [5.6, top - 7.2],
      [0, top - 7],
    ],
    20,
    GLOW,
    (u, v) => mix([2.2, 1.7, 0.8], [0.75, 0.95, 0.95], v * 0.25),
  );
  for (const p of circle(x, top - 7, z, 8.2, 13))
    mesh.tube(
      [p, [p[0], top - 20, p[2]]],
      () => 0.42,
      5,
      PLAIN,
      () => RED,
    );
  mesh.tube(
    circle(x, top - 13.5, z, 8.2),
    () => 0.35,
    5,
    PLAIN,
    () => RED,
  );
  mesh.lathe(
    x,
    z,
    [
      [0, top - 32],
      [1.6, top - 31.4],
      [2.2, top - 29.6],
      [5, top - 27.6],
      [8.2, top - 23.4],
      [9.8, top - 20.4],
      [9.8, top - 19.4],
      [8, top - 19.2],
    ],
    36,
    PLAIN,
    () => RED,
  );
  mesh.ball([x, top - 33, z], [1.5, 1.5, 1.5], 12, 8, PLAIN, () => hex('#d9a441'));
  mesh.tube(
    [
      [x, top - 33, z],
      [x, top - 41, z],
    ],
    (v) => 0.4 - 0.25 * v,
    5,
    PLAIN,
    () => DARK,
  );
  for (const [y, a] of [
    [-34, -0.25],
    [4, 0.3],
    [40, -0.15],
  ])
    window(mesh, x, z, y, a, top, ground);
}

/** A small deep-set window on the tower's front, turned by a. */
function window(mesh, x, z, y, a, top, ground) {
  const r = 10.5 + 6.5 * ((y - top) / (ground - top)) ** 1.6;
  const at = (dx, dy, out) => {
    const b = a + dx / r;
    return [x + (r + out) * Math.sin(b), y + dy, z - (r + out) * Math.cos(b)];
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
