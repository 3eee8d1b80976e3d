/** The tower and its cottage, the boat, the gulls, and the thrift in flower. */
import { hex, mix, scaled } from '../shared/colour.mjs';
import { clump, flower } from '../shared/plants.mjs';
import { makeRandom } from '../shared/prng.mjs';
import { normalise } from '../shared/vector.mjs';
import { knollY, landY, SEA_Y } from './land.mjs';
import { LAMP, TOWER_X, TOWER_Z } from './place.mjs';
import { FEATHER, GLOW, LEAF, PETAL, PLAIN, SLATE, TOWER } from './weather.mjs';

export { LAMP };

const WHITE = hex('#f4efe4');
const RED = hex('#b8392b');
const DARK = hex('#3b4a55');

export function buildSights(mesh) {
  tower(mesh);
  cottage(mesh, 66, 82);
  boat(mesh, -50, 104);
  const gulls = [[-46, -26, -96, 1.15, 0.3], [-66, -70, -30, 1.0, -0.35], [62, -92, -62, 1.0, 0.25], [-22, -84, 60, 1.0, 0.2], [76, -20, 40, 0.8, -0.2], [-88, 10, 130, 0.9, 0.4]];
  for (const [x, y, z, size, bank] of gulls) gull(mesh, [x, y, z], size * 11, bank);
  thrift(mesh);
}

const circle = (x, y, z, r, n = 25) =>
  Array.from({ length: n }, (_, i) => [x + r * Math.sin((i / (n - 1)) * 2 * Math.PI), y, z - r * Math.cos((i / (n - 1)) * 2 * Math.PI)]);

function tower(mesh) {
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
  mesh.lathe(x, z, [[0, top - 3.4], [15.5, top - 3.4], [15.5, top - 1.4], [13, top], [11, top + 3]].map((q) => q), 40, PLAIN, () => hex('#e8dfcc'));
  mesh.tube(circle(x, top - 9.5, z, 15), () => 0.45, 6, PLAIN, () => DARK);
  mesh.tube(circle(x, top - 6.5, z, 15), () => 0.3, 6, PLAIN, () => DARK);
  for (const p of circle(x, top - 3, z, 15, 21)) mesh.tube([p, [p[0], top - 9.8, p[2]]], () => 0.35, 5, PLAIN, () => DARK);
  mesh.lathe(x, z, [[8.4, top - 7], [8.4, top - 3.2]], 32, PLAIN, () => RED);
  mesh.lathe(x, z, [[0, top - 19], [5, top - 18.6], [5.6, top - 7.2], [0, top - 7]], 20, GLOW, (u, v) => mix([2.2, 1.7, 0.8], [0.75, 0.95, 0.95], v * 0.25));
  for (const p of circle(x, top - 7, z, 8.2, 13)) mesh.tube([p, [p[0], top - 20, p[2]]], () => 0.42, 5, PLAIN, () => RED);
  mesh.tube(circle(x, top - 13.5, z, 8.2), () => 0.35, 5, PLAIN, () => RED);
  mesh.lathe(x, z, [[0, top - 32], [1.6, top - 31.4], [2.2, top - 29.6], [5, top - 27.6], [8.2, top - 23.4], [9.8, top - 20.4], [9.8, top - 19.4], [8, top - 19.2]], 36, PLAIN, () => RED);
  mesh.ball([x, top - 33, z], [1.5, 1.5, 1.5], 12, 8, PLAIN, () => hex('#d9a441'));
  mesh.tube([[x, top - 33, z], [x, top - 41, z]], (v) => 0.4 - 0.25 * v, 5, PLAIN, () => DARK);
  for (const [y, a] of [[-34, -0.25], [4, 0.3], [40, -0.15]]) window(mesh, x, z, y, a, top, ground);
}

/** A small deep-set window on the tower's front, turned by a. */
function window(mesh, x, z, y, a, top, ground) {
  const r = 10.5 + 6.5 * ((y - top) / (ground - top)) ** 1.6;
  const at = (dx, dy, out) => {
    const b = a + dx / r;
    return [x + (r + out) * Math.sin(b), y + dy, z - (r + out) * Math.cos(b)];
  };
  mesh.quad(at(-2.4, -4, 0.35), at(2.4, -4, 0.35), at(2.4, 4, 0.35), at(-2.4, 4, 0.35), hex('#dcd2bd'), PLAIN);
  mesh.quad(at(-1.6, -3.2, 0.6), at(1.6, -3.2, 0.6), at(1.6, 3.2, 0.6), at(-1.6, 3.2, 0.6), hex('#3a5566'), PLAIN);
  mesh.quad(at(-0.2, -3.2, 0.8), at(0.2, -3.2, 0.8), at(0.2, 3.2, 0.8), at(-0.2, 3.2, 0.8), WHITE, PLAIN);
}

function cottage(mesh, x, z) {
  const y = landY(x, z) + 4;
  const [w, d, h] = [25, 10, 19];
  mesh.box([x - w, y - h, z - d], [x + w, y + 6, z + d], WHITE, PLAIN, 4);
  const ridge = y - h - 13;
  for (const s of [-1, 1]) {
    mesh.quad([x - w - 2, ridge, z], [x + w + 2, ridge, z], [x + w + 2, y - h + 1.5, z + s * (d + 2)], [x - w - 2, y - h + 1.5, z + s * (d + 2)], hex('#66788a'), SLATE, 30, 12);
  }
  for (const s of [-1, 1]) mesh.surface(4, 4, PLAIN, (u, v) => ({ p: [x + s * w, ridge + v * (y - h - ridge), z + (u * 2 - 1) * d * v], c: WHITE, n: [s, 0, 0] }));
  for (const cx of [-19, 19]) mesh.box([x + cx - 3, ridge - 7, z - 2.5], [x + cx + 3, ridge + 4, z + 2.5], hex('#c98a62'), PLAIN, 3);
  const front = z - d;
  const pane = (px, py, pw, ph, colour) => mesh.box([px - pw, py - ph, front - 0.5], [px + pw, py + ph, front], colour, PLAIN);
  for (const px of [-16, 15]) {
    pane(x + px, y - 10, 4, 4.8, hex('#2f7d8c'));
    mesh.box([x + px - 3.2, y - 14, front - 0.8], [x + px + 3.2, y - 6, front], hex('#ffd58a'), PLAIN);
    mesh.box([x + px - 0.3, y - 14, front - 1], [x + px + 0.3, y - 6, front], WHITE, PLAIN);
    mesh.box([x + px - 3.2, y - 10.3, front - 1], [x + px + 3.2, y - 9.7, front], WHITE, PLAIN);
  }
  mesh.box([x - 3.4, y - 13.5, front - 0.7], [x + 3.4, y + 3, front], hex('#2f7d8c'), PLAIN);
}

function boat(mesh, x, z) {
  const y = SEA_Y;
  mesh.surface(24, 8, PLAIN, (u, v) => {
    const s = u * 2 - 1;
    const beam = 6 * Math.sqrt(Math.max(0, 1 - Math.abs(s) ** 2.4));
    const sheer = -7 - 3.4 * s * s;
    const a = (v - 0.5) * Math.PI;
    return { p: [x + s * 19 * (1 - 0.12 * (1 - Math.cos(a))), y + 1.5 + (sheer - 1.5) * (1 - Math.cos(a)), z + beam * Math.sin(a)], c: Math.cos(a) < 0.22 ? WHITE : hex('#24506e') };
  });
  mesh.tube([[x + 2, y - 4, z], [x + 2, y - 52, z]], (v) => 0.7 - 0.3 * v, 6, PLAIN, () => hex('#8a6238'));
  const sail = (points, colour) =>
    mesh.surface(10, 10, FEATHER, (u, v) => {
      const [a, b, c, d] = points;
      const mixed = [0, 1].map((q) => (a[q] * (1 - u) + b[q] * u) * (1 - v) + (d[q] * (1 - u) + c[q] * u) * v);
      const seam = Math.abs(((v * 5) % 1) - 0.5) > 0.44 ? 0.8 : 1;
      return { p: [x + mixed[0], y + mixed[1], z - 4 * Math.sin(Math.PI * u) * Math.sin(Math.PI * (0.15 + 0.7 * v))], c: scaled(colour, seam) };
    });
  sail([[2.8, -44], [15, -54], [22, -11], [2.8, -12]], hex('#c2553a'));
  sail([[1.2, -46], [1.3, -46], [1, -13], [-19, -10]], hex('#e9d9b4'));
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
      return { p: place(hand * reach, lift + (v - 0.3) * chord * 0.75, (v - 0.3) * chord + u * u * size * 0.3), c: tint, n: normalise([hand * 0.15, -0.65, -0.75]) };
    });
  }
  mesh.ball(place(0, 0, 0), [size * 0.13, size * 0.15, size * 0.55], 12, 10, FEATHER, () => WHITE);
  mesh.ball(place(0, -0.02 * size, -size * 0.5), [size * 0.11, size * 0.11, size * 0.13], 10, 8, FEATHER, () => hex('#ffffff'));
  mesh.tube([place(0, 0.03 * size, -size * 0.6), place(0, 0.09 * size, -size * 0.72)], (v) => size * (0.04 - 0.03 * v), 6, FEATHER, () => hex('#f2a63a'));
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
    clump(mesh, LEAF, random, [x, y, z], 16, { length: 10, width: 1.1, rise: [0.3, 1.3], droop: 0.3, steps: 3, colours: ['#5e9a52', '#79ad5c'].map(hex) });
    for (let k = 0; k < 2; k++) {
      const head = [x + random.spread(7), y - random.between(12, 24), z + random.spread(5)];
      mesh.tube([[x, y, z], [(x + head[0]) / 2, (y + head[1]) / 2 - 1, (z + head[2]) / 2], head], () => 0.4, 5, LEAF, () => hex('#8aa05a'));
      const r = random.between(2.6, 3.6);
      const pink = random.pick(pinks);
      mesh.ball(head, [r * 0.75, r * 0.62, r * 0.75], 8, 6, PETAL, () => scaled(pink, 0.55));
      for (let j = 0; j < 15; j++) {
        const a = j * 2.4;
        const h = 1 - (j / 15) * 1.25;
        const w = Math.sqrt(Math.max(0, 1 - h * h));
        const out = [w * Math.sin(a), -h, -w * Math.cos(a)];
        flower(mesh, PETAL, random, [head[0] + out[0] * r * 0.75, head[1] + out[1] * r * 0.62, head[2] + out[2] * r * 0.75], out, r * 0.52, scaled(pink, random.between(0.85, 1.2)), hex('#fff0c8'));
      }
    }
  }
}
