/** Leaves and what they make up. Every plant is drawn from a generator passed in, so a scene decides its own seeds. */
import { mix, scaled } from './colour.mjs';
import { add, cross, normalise, scale, turn } from './vector.mjs';

const UP = [0, -1, 0];

/** A direction from a compass angle (0 = towards the eye, growing to the right) and a rise above level. */
export const heading = (around, rise) => [
  Math.sin(around) * Math.cos(rise),
  -Math.sin(rise),
  -Math.cos(around) * Math.cos(rise),
];

const spine = (base, dir, length, droop) => (t) => [
  base[0] + dir[0] * length * t,
  base[1] + dir[1] * length * t + droop * length * t * t,
  base[2] + dir[2] * length * t,
];

/**
 * One leaf, folded along its middle. `shape` is its outline: 'blade' is widest in the middle, 'heart' near the stalk,
 * 'spoon' near the tip.
 */
export function leaf(
  mesh,
  material,
  {
    base,
    dir,
    length,
    width,
    droop = 0.3,
    fold = 0.25,
    roll = 0,
    colour,
    rib,
    steps = 5,
    shape = 'blade',
  },
) {
  const at = spine(base, dir, length, droop);
  let side = normalise(cross(dir, Math.abs(dir[1]) > 0.95 ? [0, 0, 1] : UP));
  if (roll) side = turn(side, normalise(dir), roll);
  const lift = normalise(cross(side, dir));
  const up = lift[1] > 0 ? scale(lift, -1) : lift;
  const outline = (t) => {
    const s = shape === 'heart' ? t ** 0.55 : shape === 'spoon' ? t ** 1.5 : t ** 0.85;
    return Math.sin(Math.PI * Math.min(1, 0.04 + 0.96 * s)) * width * 0.5;
  };
  const middle = rib ?? scaled(colour, 1.25);
  for (const hand of [-1, 1]) {
    const tilt = normalise(add(up, scale(side, -hand * fold)));
    const tint = scaled(colour, hand > 0 ? 1.08 : 0.94);
    mesh.surface(1, steps, material, (u, v) => {
      const w = outline(v) * u;
      const p = add(at(v), add(scale(side, hand * w), scale(up, w * fold)));
      return {
        p,
        n: tilt,
        c: mix(mix(middle, tint, Math.min(1, u * 1.4)), scaled(tint, 1.2), v * 0.5),
      };
    });
  }
}

/** A feathered leaf: a stalk with leaflets on both sides. Ferns and palms differ only in the numbers. */
export function frond(
  mesh,
  material,
  random,
  {
    base,
    dir,
    length,
    droop,
    pairs,
    leaflet,
    width,
    sag = 0.5,
    sweep = 0.7,
    colour,
    stalk,
    steps = 2,
    bare = 0.15,
  },
) {
  const at = spine(base, dir, length, droop);
  const side = normalise(cross(dir, Math.abs(dir[1]) > 0.97 ? [0, 0, 1] : UP));
  const points = Array.from({ length: 9 }, (_, i) => at(i / 8));
  mesh.tube(
    points,
    (v) => (length / 130) * (1.1 - v),
    5,
    material,
    () => stalk ?? colour,
  );
  for (let i = 0; i < pairs; i++) {
    const t = bare + (1 - bare) * ((i + 0.5) / pairs);
    const along = normalise([dir[0], dir[1] + 2 * droop * t, dir[2]]);
    const size = leaflet * Math.sin(Math.PI * Math.min(0.97, 0.18 + 0.8 * t)) ** 0.8;
    for (const hand of [-1, 1]) {
      const out = normalise(add(scale(side, hand), scale(along, sweep + random.spread(0.08))));
      leaf(mesh, material, {
        base: at(t),
        dir: out,
        length: size * random.between(0.92, 1.08),
        width,
        droop: sag,
        fold: 0.2,
        steps,
        colour: mix(colour, scaled(colour, random.between(0.7, 1.35)), 0.8),
      });
    }
  }
}

/** A crown of fronds around the top of a stem. */
export function crown(mesh, material, random, at, count, options) {
  for (let i = 0; i < count; i++) {
    const around = (i / count) * 2 * Math.PI + random.spread(0.25);
    const rise = options.rise[0] + (options.rise[1] - options.rise[0]) * ((i * 0.618) % 1);
    const colour = random.pick(options.colours);
    frond(mesh, material, random, {
      ...options,
      base: at,
      dir: heading(around, rise),
      length: options.length * random.between(0.85, 1.1),
      droop: options.droop * random.between(0.8, 1.2),
      colour,
    });
  }
}

/** A clump of single leaves from one root. */
export function clump(mesh, material, random, at, count, options) {
  for (let i = 0; i < count; i++) {
    const around = (i / count) * 2 * Math.PI + random.spread(0.5);
    leaf(mesh, material, {
      ...options,
      base: [at[0] + random.spread(1), at[1], at[2] + random.spread(1)],
      dir: heading(around, random.between(...options.rise)),
      length: options.length * random.between(0.7, 1.15),
      width: options.width * random.between(0.8, 1.15),
      roll: random.spread(0.3),
      colour: random.pick(options.colours),
    });
  }
}

/** A flower of flat petals round a small middle, facing `face`. */
export function flower(mesh, material, random, at, face, size, colour, heart, petals = 5) {
  const f = normalise(face);
  const a = normalise(cross(f, Math.abs(f[1]) > 0.9 ? [1, 0, 0] : UP));
  const start = random.next() * 6;
  for (let i = 0; i < petals; i++) {
    const out = turn(a, f, start + (i / petals) * 2 * Math.PI);
    leaf(mesh, material, {
      base: at,
      dir: normalise(add(out, scale(f, 0.35))),
      length: size,
      width: (size * 4.2) / petals,
      droop: 0,
      fold: 0.12,
      steps: 3,
      shape: 'spoon',
      colour: scaled(colour, random.between(0.88, 1.12)),
      rib: scaled(colour, 0.8),
    });
  }
  mesh.ball(
    add(at, scale(f, size * 0.12)),
    [size * 0.22, size * 0.22, size * 0.22],
    6,
    4,
    material,
    () => heart,
  );
}
