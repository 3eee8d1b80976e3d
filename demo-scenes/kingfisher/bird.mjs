/**
 * The bird. Its own axes: f from tail to breast, u from belly to back, r across. A point is given as [along f, along u,
 * along r] in millimetres from the middle of the body.
 */
import { hex, mix, scaled, smooth } from '../shared/colour.mjs';
import { noise } from '../shared/prng.mjs';
import { add, cross, dot, normalise, scale } from '../shared/vector.mjs';
import { HORN, PLUME, SHELL } from './light.mjs';

const AZURE = hex('#1a9ad8');
const TEAL = hex('#0c7294');
const NAVY = hex('#0a4472');
const RUFOUS = hex('#e8742a');
const BUFF = hex('#f6a552');
const WHITE = hex('#fdf6e8');
const BLACK = hex('#26262c');
const SPOT = hex('#7fd8f2');

/** Where toes meet the branch. */
const PERCH_Y = -57;

const radians = (d) => (d * Math.PI) / 180;

/** Axes for a part that points `degrees` below level, turned a little towards the eye. */
function axes(hand, degrees, yaw = 0.38) {
  const a = radians(degrees);
  const f0 = [hand * Math.cos(a), Math.sin(a), 0];
  const u = [hand * Math.sin(a), -Math.cos(a), 0];
  const r0 = [0, 0, -1];
  const f = add(scale(f0, Math.cos(yaw)), scale(r0, Math.sin(yaw)));
  return { f, u, r: add(scale(r0, Math.cos(yaw)), scale(f0, -Math.sin(yaw))) };
}

const placed =
  (o, { f, u, r }) =>
  (a, b, c) =>
    add(o, add(scale(f, a), add(scale(u, b), scale(r, c))));

export function drawBird(mesh, pose) {
  const body = axes(pose.hand, pose.lean);
  const head = axes(pose.hand, pose.gaze, 0.3);
  const at = placed(pose.at, body);
  trunk(mesh, at, body);
  tail(mesh, at, body);
  const neck = at(17, 4, 0);
  skull(mesh, add(neck, add(scale(head.f, 3.5), scale(head.u, 1.5))), head, pose.fish);
  for (const side of [1, -1]) wing(mesh, at, body, side, pose);
  if (pose.perched) feet(mesh, at, pose);
}

/** Round about the axis f, from the rump to the neck. */
function trunk(mesh, at, { f, u, r }) {
  const girth = (t) => 12.6 * Math.sin(Math.PI * (0.07 + 0.8 * t ** 0.85)) ** 0.8;
  mesh.surface(32, 30, PLUME, (s, t) => {
    const a = s * 2 * Math.PI;
    const radius = girth(t);
    const up = Math.cos(a);
    const slope = (girth(Math.min(1, t + 0.01)) - girth(Math.max(0, t - 0.01))) / 0.9;
    const p = at(-24 + 45 * t, up * radius * 0.95 + (t - 0.5) * 5, Math.sin(a) * radius * 0.88);
    const n = normalise(add(add(scale(u, up), scale(r, Math.sin(a))), scale(f, -slope)));
    const down = noise(t * 34, s * 46);
    const belly = mix(mix(RUFOUS, BUFF, smooth(0.1, -0.95, up)), scaled(RUFOUS, 0.8), 0.5 * down);
    const back = mix(AZURE, SPOT, 0.55 * smooth(0.8, 1, up) + 0.25 * down);
    return { p, n, c: mix(belly, back, smooth(0.12, 0.3, up + 0.12 * (down - 0.5))) };
  });
}

function tail(mesh, at, { f, u, r }) {
  for (let i = -2; i <= 2; i++) {
    feather(
      mesh,
      at(-21, -0.5, i * 1.2),
      normalise(add(scale(f, -1), add(scale(r, i * 0.12), scale(u, -0.05)))),
      u,
      15,
      4.2,
      NAVY,
      AZURE,
    );
  }
}

/** Head, cheek marks, eye, bill, and perhaps a fish held crosswise. */
function skull(mesh, o, head, fish) {
  const { f, u, r } = head;
  const at = placed(o, head);
  const size = 9.6;
  mesh.surface(40, 28, PLUME, (s, t) => {
    const a = s * 2 * Math.PI;
    const b = t * Math.PI;
    const d = [-Math.cos(b), Math.sin(b) * Math.cos(a), Math.sin(b) * Math.sin(a)];
    const n = add(scale(f, d[0]), add(scale(u, d[1]), scale(r, d[2])));
    const side = Math.abs(d[2]);
    let c = mix(TEAL, SPOT, smooth(0.6, 0.75, noise(d[0] * 9 + 20, d[2] * 12 + 20)));
    if (d[1] < 0.22) c = RUFOUS;
    // From bill to nape: orange cheek, a white flash behind it, blue moustache under it, white throat.
    if (side > 0.35 && d[0] < -0.28 && d[1] < 0.3 && d[1] > -0.42) c = WHITE;
    if (side > 0.3 && d[1] < -0.28 && d[1] > -0.58 && d[0] < 0.7) c = mix(TEAL, AZURE, 0.5);
    if (d[1] < -0.58) c = WHITE;
    return {
      p: at(d[0] * size * 1.12, d[1] * size * 0.96, d[2] * size * 0.92),
      n: normalise(n),
      c,
    };
  });
  for (const side of [1, -1]) {
    const eye = at(size * 0.62, size * 0.26, side * size * 0.7);
    mesh.ball(eye, [1.75, 1.75, 1.75], 14, 10, SHELL, () => BLACK);
    mesh.ball(add(eye, [-0.5, -0.7, -1.35]), [0.55, 0.55, 0.55], 8, 6, SHELL, () => [
      1.6, 1.6, 1.6,
    ]);
  }
  const bill = (from, to, thick, colour) => {
    const points = Array.from({ length: 9 }, (_, i) =>
      at(size * 0.8 + 25 * (i / 8), from + (to - from) * (i / 8), 0),
    );
    mesh.tube(
      points,
      (v) => thick * (1 - v) ** 0.8 + 0.12,
      12,
      HORN,
      () => colour,
    );
  };
  bill(0.6, -0.5, 2.3, BLACK);
  bill(-1.2, -1.2, 1.9, hex('#3c2e2c'));
  if (fish) drawFish(mesh, at(size + 15, -0.6, 0), head);
}

function drawFish(mesh, o, { f, u, r }) {
  const along = normalise(add(scale(r, 0.55), scale(u, -0.85)));
  const thick = normalise(cross(along, f));
  const at = (a, b, c) => add(o, add(scale(along, a), add(scale(f, b), scale(thick, c))));
  const depth = (t) => 4.9 * Math.sin(Math.PI * (0.06 + 0.86 * t)) ** 0.9;
  mesh.surface(16, 18, SHELL, (s, t) => {
    const a = s * 2 * Math.PI;
    const d = depth(t);
    const c = mix(hex('#b4c6cc'), hex('#2f6672'), smooth(-0.35, 0.35, Math.cos(a)));
    return {
      p: at(-15 + 28 * t, d * Math.cos(a), 0.45 * d * Math.sin(a)),
      n: normalise(add(scale(f, Math.cos(a)), scale(thick, Math.sin(a)))),
      c: t > 0.86 ? mix(c, BUFF, 0.3) : c,
    };
  });
  for (const s of [-1, 1])
    feather(
      mesh,
      at(-13.5, 0, 0),
      normalise(add(scale(along, -1), scale(f, s * 0.65))),
      thick,
      8.5,
      3.6,
      hex('#4f8490'),
      hex('#86adb4'),
    );
}

/** One feather in the plane whose normal is n: pale shaft, colour running from root to tip. */
function feather(mesh, base, dir, n, length, width, root, tip) {
  const across = normalise(cross(dir, n));
  mesh.surface(2, 5, PLUME, (s, t) => {
    const half = width * 0.5 * Math.sin(Math.PI * (0.14 + 0.8 * t)) ** 0.6;
    const o = (s - 0.5) * 2;
    const c = mix(root, tip, t);
    return {
      p: add(base, add(scale(dir, length * t), scale(across, half * o))),
      n,
      c: scaled(c, o === 0 ? 1.35 : o < 0 ? 0.85 : 1.05),
    };
  });
}

/** Arm, flight feathers, two rows of coverts. Folded, the feathers lie along the flank; spread, they fan from the arm. */
function wing(mesh, at, { f, u, r }, side, { open, flap, sweep }) {
  const lift = radians(flap);
  const spread = add(scale(r, side * Math.cos(lift)), scale(u, Math.sin(lift)));
  const span = normalise(add(scale(spread, open), scale(u, -(1 - open) * 0.7)));
  const back = scale(f, -1);
  const shoulder = at(11, 5.5, side * (11.6 - open * 4.6));
  const arm = 6 + 23 * open;
  let n = normalise(cross(span, f));
  if (dot(n, [0, 0, -1]) < 0) n = scale(n, -1);
  const rows = [
    { count: 17, inner: 25, outer: 25 + 15 * open, width: 5.6, drop: 0, root: NAVY, tip: TEAL },
    { count: 15, inner: 17, outer: 17 + 3 * open, width: 5.2, drop: 0.5, root: TEAL, tip: AZURE },
    { count: 13, inner: 10, outer: 10, width: 4.4, drop: 1, root: AZURE, tip: SPOT },
  ];
  for (const { count, inner, outer, width, drop, root, tip } of rows) {
    for (let i = 0; i < count; i++) {
      const k = i / (count - 1);
      const out = open * k ** 1.3 * (1 - 0.75 * sweep);
      const trail = add(
        scale(span, arm * k * (1 - 0.35 * sweep)),
        scale(back, 6 * sweep * k * open + 2.5 * k * open + 7 * (1 - open) * (k - 0.45) ** 2 * 4),
      );
      const dir = normalise(add(scale(back, 1 - out), scale(span, out * 1.15 + 0.02)));
      // Each feather lies a little over the next, and each row over the one before, so that none cut through.
      const over = add(scale(n, drop * 0.9 + 0.05 * i), scale(r, side * (1 - open) * 0.6 * drop));
      feather(
        mesh,
        add(shoulder, add(trail, over)),
        dir,
        n,
        inner + (outer - inner) * k + 9 * (1 - open) * (0.5 - Math.abs(k - 0.3)),
        width,
        root,
        tip,
      );
    }
  }
}

function feet(mesh, at, { at: middle, hand }) {
  for (const c of [3, -3]) {
    const hip = at(-8, -9, c);
    const toe = [middle[0] - hand * 2 + (c > 0 ? 2 : -2), PERCH_Y, middle[2] - c * 0.6];
    mesh.tube(
      [hip, toe],
      () => 0.9,
      8,
      HORN,
      () => hex('#d9452c'),
    );
    for (const k of [-1, 0, 1])
      mesh.tube(
        [toe, add(toe, [hand * 3.6, 1.4, k * 1.8 - 1.2])],
        (v) => 0.8 - 0.4 * v,
        6,
        HORN,
        () => hex('#d9452c'),
      );
  }
}
