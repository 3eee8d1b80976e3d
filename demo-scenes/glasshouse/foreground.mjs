/** What is nearest the eye: the basket at the door, leaves that frame the view, butterflies. It stands out in front of the print. */
import { hex, mix, scaled } from '../shared/colour.mjs';
import { clump, flower, frond, heading, leaf } from '../shared/plants.mjs';
import { bed, blue, bright, drift, fresh, greens } from './greenery.mjs';
import { BRASS, LEAF, PETAL, SOIL } from './light.mjs';

/** Hung from the first arch, well in front of the key plane. */
export function basket(mesh, random, at) {
  const [x, y, z] = at;
  const wire = hex('#6c5a3a');
  for (let i = 0; i < 3; i++) {
    const a = i * 2.094 + 0.5;
    mesh.tube(
      [
        [x + 13 * Math.sin(a), y, z - 13 * Math.cos(a)],
        [x, y - 40, z],
      ],
      () => 0.3,
      5,
      BRASS,
      () => wire,
    );
  }
  mesh.tube(
    [
      [x, y - 40, z],
      [x, y - 90, z],
    ],
    () => 0.5,
    5,
    BRASS,
    () => wire,
  );
  mesh.lathe(
    x,
    z,
    [
      [0, 0.5],
      [13.5, 0],
      [14, 1],
      [13, 5],
      [10, 9.5],
      [6, 12.5],
      [0, 14],
    ].map(([r, h]) => [r, y + h]),
    28,
    SOIL,
    (u, v) => scaled(hex('#8a6a42'), 0.8 + 0.4 * Math.abs(Math.sin(u * 40 + v * 20))),
  );
  clump(mesh, LEAF, random, [x, y, z], 40, {
    length: 20,
    width: 4.2,
    rise: [0, 1.2],
    droop: 0.8,
    colours: [...fresh, ...bright],
  });
  for (let i = 0; i < 15; i++) {
    const a = i * 0.42 * 2.4;
    const start = [x + 13 * Math.sin(a), y, z - 13 * Math.cos(a)];
    const drop = random.between(16, 34);
    for (let k = 0; k < 9; k++) {
      const p = [
        start[0] + 4 * Math.sin(a) * Math.sin(k / 4),
        start[1] + (drop * k) / 9,
        start[2] - 4 * Math.cos(a) * Math.sin(k / 4),
      ];
      leaf(mesh, LEAF, {
        base: p,
        dir: heading(a + (k % 2 ? 1.2 : -1.2), 0.1),
        length: 5,
        width: 3,
        droop: 0.5,
        steps: 3,
        colour: random.pick(bright),
      });
    }
  }
  for (let i = 0; i < 46; i++) {
    const a = random.next() * 6.283;
    const r = random.between(4, 15);
    flower(
      mesh,
      PETAL,
      random,
      [x + r * Math.sin(a), y - 9 + r * 0.75 + random.spread(3), z - r * Math.cos(a)],
      [Math.sin(a) * 0.7, -0.3, -1],
      3.1,
      random.pick([hex('#d65fd0'), hex('#f08be0'), hex('#8c5fe0')]),
      hex('#fff2b0'),
    );
  }
}

/** Leaves and butterflies nearest the eye: they frame the view and stand out in front of the print. */
export function foreground(mesh, random) {
  for (let i = 0; i < 11; i++) {
    frond(mesh, LEAF, random, {
      base: [-72, bed, -84],
      dir: heading(-1.2 + i * 0.34, random.between(0.75, 1.25)),
      length: random.between(52, 66),
      droop: 0.42,
      pairs: 26,
      leaflet: 14,
      width: 3,
      sag: 0.2,
      sweep: 0.35,
      colour: random.pick(greens),
      steps: 3,
    });
  }
  clump(mesh, LEAF, random, [66, bed, -84], 24, {
    length: 38,
    width: 9,
    rise: [0.5, 1.35],
    droop: 0.5,
    fold: 0.22,
    steps: 10,
    rib: hex('#a9cbb0'),
    colours: blue,
  });
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
    for (const [rise, long, wide] of [
      [0.75, 9.4, 3.6],
      [-0.55, 6.6, 3.3],
    ]) {
      mesh.surface(10, 6, PETAL, (u, v) => {
        const r = u * long;
        const half = wide * Math.sin(Math.PI * (0.06 + 0.86 * u ** 0.8));
        const a = Math.cos(rise) * r - Math.sin(rise) * half * (v * 2 - 1);
        const b = Math.sin(rise) * r + Math.cos(rise) * half * (v * 2 - 1);
        const edge = Math.max(u, Math.abs(v * 2 - 1) * 0.95);
        const tint = edge > 0.86 ? dark : u < 0.15 ? dark : mix(colour, scaled(colour, 1.4), u);
        return {
          p: [
            at[0] + hand * a * c * 0.9 - b * s,
            at[1] - b * c - hand * a * s * 0.9,
            at[2] - Math.abs(a) * 0.45,
          ],
          c: tint,
          n: [hand * -0.3, -0.3, -0.9],
        };
      });
    }
  }
  const body = (t) => [at[0] + t * s, at[1] + t * c, at[2] - 0.8];
  mesh.tube(
    [body(-3.2), body(-1.5), body(1), body(4)],
    (v) => 0.75 - 0.4 * v,
    6,
    PETAL,
    () => dark,
  );
}
