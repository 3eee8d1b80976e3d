/** Everything that does not move: far bank, reeds, irises, lilies, and the branch. */
import { hex, mix, scaled } from '../shared/colour.mjs';
import { clump, flower, leaf } from '../shared/plants.mjs';
import { cloudNoise, makeRandom } from '../shared/prng.mjs';
import { normalise } from '../shared/vector.mjs';
import { BANK, BARK, LEAF, PETAL, WATER_Y, WOOD } from './light.mjs';

const reed = ['#5f8f42', '#79a650', '#8fb65c', '#4b7f45'].map(hex);
const flag = ['#3f8a58', '#54a066', '#6fb274'].map(hex);

export function buildPond(mesh) {
  const random = makeRandom(1958);
  mesh.quad(
    [-300, -330, 262],
    [300, -330, 262],
    [300, WATER_Y, 262],
    [-300, WATER_Y, 262],
    [0.5, 0.5, 0.5],
    WOOD,
  );
  bank(mesh, random);
  for (let i = 0; i < 26; i++)
    stand(
      mesh,
      random,
      i % 2 ? random.between(66, 150) : random.between(-150, -72),
      random.between(70, 215),
    );
  for (let i = 0; i < 10; i++)
    stand(
      mesh,
      random,
      i % 2 ? random.between(82, 112) : random.between(-110, -84),
      random.between(-20, 50),
    );
  for (const [x, z] of [
    [-74, 34],
    [-92, 4],
    [88, 96],
    [72, 150],
    [-60, 168],
  ])
    iris(mesh, random, x, z);
  for (const [x, z, r] of [
    [-40, -34, 13],
    [-66, -8, 11],
    [-18, -52, 10],
    [70, -30, 13],
    [52, -56, 9],
    [-48, 40, 10],
    [88, 14, 11],
  ])
    pad(mesh, random, x, z, r);
  lily(mesh, random, -52, -30);
  lily(mesh, random, 77, -24);
  branch(mesh, random);
}

function bank(mesh, random) {
  mesh.surface(90, 6, BANK, (u, v) => {
    const x = -240 + 480 * u;
    const top = 7 + 9 * cloudNoise(x / 24, 5, 0, 3);
    return {
      p: [x, WATER_Y + 0.5 - top * (1 - v), 256 - 9 * v],
      c: mix(hex('#7f9a4c'), hex('#6b5238'), v),
      n: [0, -0.6, -0.8],
    };
  });
  for (let i = 0; i < 150; i++) {
    const x = random.spread(220);
    clump(mesh, LEAF, random, [x, WATER_Y - 4, random.between(236, 254)], 8, {
      length: random.between(14, 34),
      width: 2,
      rise: [0.8, 1.5],
      droop: 0.2,
      steps: 3,
      colours: reed,
    });
  }
}

/** A tuft of reeds, now and then with a brown mace. */
function stand(mesh, random, x, z) {
  for (let i = 0; i < 11; i++) {
    const root = [x + random.spread(7), WATER_Y + 1, z + random.spread(6)];
    const lean = random.spread(0.16);
    leaf(mesh, LEAF, {
      base: root,
      dir: normalise([lean, -1, random.spread(0.1)]),
      length: random.between(80, 150),
      width: random.between(3, 4.6),
      droop: random.between(0, 0.14),
      fold: 0.2,
      roll: random.spread(0.7),
      steps: 9,
      shape: 'heart',
      colour: random.pick(reed),
    });
  }
  if (random.next() < 0.62) {
    const top = [x + random.spread(5), WATER_Y - random.between(96, 132), z - 5];
    mesh.tube(
      [[x, WATER_Y + 1, z - 5], top],
      () => 0.7,
      6,
      LEAF,
      () => reed[1],
    );
    const mace = Array.from({ length: 8 }, (_, i) => [top[0], top[1] + 2 + i * 2.9, top[2]]);
    mesh.tube(
      mace,
      (v) => 2.5 * Math.min(1, 8 * v, 8 * (1 - v)) + 0.3,
      10,
      BARK,
      () => hex('#8a5530'),
    );
    mesh.tube(
      [top, [top[0], top[1] - 9, top[2]]],
      (v) => 0.6 - 0.4 * v,
      5,
      BARK,
      () => hex('#c9a868'),
    );
  }
}

/** Yellow flag: sword leaves and two or three flowers. */
function iris(mesh, random, x, z) {
  for (let i = 0; i < 16; i++) {
    leaf(mesh, LEAF, {
      base: [x + random.spread(8), WATER_Y + 1, z + random.spread(6)],
      dir: normalise([random.spread(0.35), -1, random.spread(0.2)]),
      length: random.between(42, 70),
      width: 4.6,
      droop: 0.1,
      fold: 0.15,
      steps: 7,
      shape: 'heart',
      colour: random.pick(flag),
    });
  }
  for (let i = 0; i < 3; i++) {
    const top = [x + random.spread(14), WATER_Y - random.between(46, 70), z - 4];
    mesh.tube(
      [[x, WATER_Y, z - 2], top],
      () => 0.8,
      6,
      LEAF,
      () => flag[0],
    );
    for (let k = 0; k < 3; k++)
      flower(
        mesh,
        PETAL,
        random,
        top,
        [k - 1, -0.9 + 0.5 * (k % 2), -0.8],
        7,
        hex('#ffd21f'),
        hex('#e89a10'),
        4,
      );
  }
}

/** A lily pad: a disc with a notch, floating. */
function pad(mesh, random, x, z, r) {
  const start = random.next() * 6;
  const colour = random.pick(['#4f9455', '#68a95c', '#7fb862'].map(hex));
  mesh.surface(30, 3, LEAF, (u, v) => {
    const a = start + 0.22 + u * (2 * Math.PI - 0.44);
    const rib = Math.abs(((u * 11) % 1) - 0.5) < 0.12 ? 1.3 : 1;
    return {
      p: [x + r * v * Math.sin(a), WATER_Y - 0.5 - 0.7 * v ** 4, z - r * v * Math.cos(a)],
      c: scaled(colour, rib * (0.85 + 0.25 * v)),
      n: [0, -1, 0],
    };
  });
}

function lily(mesh, random, x, z) {
  for (let ring = 0; ring < 3; ring++) {
    for (let i = 0; i < 9 - ring; i++) {
      const a = (i / (9 - ring)) * 6.283 + ring * 0.4;
      const rise = 0.35 + ring * 0.42;
      leaf(mesh, PETAL, {
        base: [x, WATER_Y - 1.2, z],
        dir: [Math.sin(a) * Math.cos(rise), -Math.sin(rise), -Math.cos(a) * Math.cos(rise)],
        length: 9.5 - ring * 1.4,
        width: 4,
        droop: -0.12,
        fold: 0.25,
        steps: 5,
        shape: 'blade',
        colour: mix(hex('#f58fb4'), hex('#ffe4ec'), ring / 2),
      });
    }
  }
  mesh.ball([x, WATER_Y - 4.5, z], [1.9, 1.9, 1.9], 10, 8, PETAL, () => hex('#ffcf3f'));
}

/** In from the upper left, with a place to sit and some leaves. */
function branch(mesh, random) {
  const bark = hex('#8f6b4a');
  const limb = (points, thick, thin) =>
    mesh.tube(
      points,
      (v) => thick + (thin - thick) * v,
      12,
      BARK,
      () => bark,
    );
  const curve = (a, b, c, n = 16) =>
    Array.from({ length: n + 1 }, (_, i) => {
      const t = i / n;
      return a.map((_, q) => a[q] * (1 - t) ** 2 + 2 * b[q] * t * (1 - t) + c[q] * t * t);
    });
  limb(curve([-116, -70, 6], [-62, -42, 2], [8, -62, 0]), 4.8, 1.4);
  const twigs = [
    curve([-70, -58, 3], [-60, -84, 0], [-66, -104, -4]),
    curve([-14, -57, 1], [0, -48, 10], [18, -44, 18]),
    curve([-88, -62, 4], [-84, -44, 0], [-74, -32, -6]),
    curve([2, -61, 0], [14, -68, 12], [24, -80, 18]),
  ];
  for (const twig of twigs) {
    limb(twig, 1.5, 0.4);
    for (let i = 5; i <= 16; i += 2) {
      const hand = i % 4 === 1 ? 1 : -1;
      leaf(mesh, LEAF, {
        base: twig[i],
        dir: normalise([
          random.spread(0.5) + hand * 0.7,
          random.spread(0.5) - 0.1,
          random.spread(0.4) - 0.3,
        ]),
        length: random.between(13, 18),
        width: 7.4,
        droop: 0.3,
        fold: 0.2,
        roll: random.between(0.5, 1.1),
        steps: 6,
        colour: random.pick(['#7fb04a', '#98c25a', '#6a9f48'].map(hex)),
      });
    }
  }
}
