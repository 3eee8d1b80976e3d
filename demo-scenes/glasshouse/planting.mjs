/** What grows in the beds, and the order in which the house is filled, from the back to the front. */
import { hex, scaled } from '../shared/colour.mjs';
import { clump, crown, frond, heading, leaf } from '../shared/plants.mjs';
import { makeRandom } from '../shared/prng.mjs';
import { basket, foreground } from './foreground.mjs';
import { bed, blue, bright, drift, fresh, greens } from './greenery.mjs';
import { LEAF, SOIL } from './light.mjs';
import { pots, urn } from './pots.mjs';

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
  mesh.tube(
    trunk,
    (v) => 3.6 - 1.1 * v + (Math.round(v * 29) % 2) * 0.7,
    10,
    SOIL,
    (v) => scaled(bark, Math.round(v * 29) % 2 ? 1.3 : 0.85),
  );
  crown(mesh, LEAF, random, trunk[29], 17, {
    length: reach,
    droop: 0.62,
    rise: [-0.1, 1.25],
    pairs: 30,
    leaflet: 20,
    width: 2.6,
    sag: 0.55,
    sweep: 0.9,
    colours,
    stalk: hex('#b5b868'),
  });
}

function treeFern(mesh, random, at, height) {
  const trunk = Array.from({ length: 16 }, (_, i) => [at[0], at[1] - (height * i) / 15, at[2]]);
  mesh.tube(
    trunk,
    (v) => 4.4 - v + (Math.round(v * 15) % 2) * 0.6,
    10,
    SOIL,
    (v) => scaled(hex('#6d4b36'), Math.round(v * 15) % 2 ? 1.2 : 0.8),
  );
  crown(mesh, LEAF, random, trunk[15], 15, {
    length: 58,
    droop: 0.5,
    rise: [0.05, 0.95],
    pairs: 34,
    leaflet: 13,
    width: 2.5,
    sag: 0.25,
    sweep: 0.35,
    colours: fresh,
    stalk: hex('#6d7a3a'),
  });
}

function banana(mesh, random, at) {
  mesh.tube(
    [at, [at[0] + 1, at[1] - 30, at[2]], [at[0] + 3, at[1] - 62, at[2]]],
    (v) => 5 - 2 * v,
    10,
    LEAF,
    () => hex('#8fa85c'),
  );
  for (let i = 0; i < 10; i++) {
    leaf(mesh, LEAF, {
      base: [at[0] + 3, at[1] - 60, at[2]],
      dir: heading(i * 2.4 + 1.15, 0.25 + i * 0.12),
      length: 66 - i * 1.5,
      width: 16,
      droop: 0.75 - i * 0.05,
      fold: 0.35,
      roll: random.spread(0.3),
      steps: 14,
      colour: random.pick(bright),
      rib: hex('#cdd88c'),
    });
  }
}

/** Low things in the beds: hostas, ferns, grasses, and flowers in drifts of one colour along the kerb. */
function underplanting(mesh, random) {
  const drifts = ['#f06a8a', '#ffb03b', '#fff3e0', '#e8543f', '#c77be0', '#ffd84d'].map(hex);
  for (let z = 255; z > -62; z -= 11) {
    for (const hand of [-1, 1]) {
      for (const x of [hand * random.between(52, 58), hand * random.between(68, 80)])
        low(mesh, random, [x, bed, z + random.spread(4)]);
      drift(mesh, random, [hand * 45, bed, z], random.pick(drifts), 10, 11);
    }
  }
}

function low(mesh, random, at) {
  const kind = Math.floor(random.next() * 3);
  if (kind === 0) {
    clump(mesh, LEAF, random, at, 15, {
      length: 20,
      width: 9,
      rise: [0.35, 1.2],
      droop: 0.45,
      shape: 'heart',
      colours: random.pick([bright, blue, fresh]),
    });
  } else if (kind === 1) {
    for (let i = 0; i < 10; i++) {
      frond(mesh, LEAF, random, {
        base: at,
        dir: heading(i * 0.63, random.between(0.6, 1.2)),
        length: random.between(22, 28),
        droop: 0.5,
        pairs: 15,
        leaflet: 6.5,
        width: 1.8,
        sag: 0.2,
        sweep: 0.3,
        colour: random.pick(fresh),
      });
    }
  } else
    clump(mesh, LEAF, random, at, 20, {
      length: 28,
      width: 2.6,
      rise: [0.7, 1.45],
      droop: 0.25,
      colours: random.pick([greens, blue]),
    });
}
