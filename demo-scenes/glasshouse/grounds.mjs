/** What is seen through the glass. */
import { hex, mix, scaled } from '../shared/colour.mjs';
import { clump } from '../shared/plants.mjs';
import { makeRandom } from '../shared/prng.mjs';
import { END_Z, FLOOR_Y, FRONT_Z } from './house.mjs';
import { FAR, SKY } from './light.mjs';

/** Backcloth, lawn, hedges and far trees. */
export function outside(mesh) {
  mesh.quad(
    [-420, -400, 340],
    [420, -400, 340],
    [420, 60, 340],
    [-420, 60, 340],
    hex('#ffffff'),
    SKY,
    4,
    4,
  );
  mesh.quad(
    [-300, FLOOR_Y + 3, FRONT_Z],
    [300, FLOOR_Y + 3, FRONT_Z],
    [300, FLOOR_Y + 3, END_Z],
    [-300, FLOOR_Y + 3, END_Z],
    hex('#8fb255'),
    FAR,
    20,
    20,
  );
  mesh.quad(
    [-300, FLOOR_Y + 3, END_Z],
    [300, FLOOR_Y + 3, END_Z],
    [300, 22, 336],
    [-300, 22, 336],
    hex('#8fb255'),
    FAR,
    30,
    12,
  );
  mesh.quad(
    [-16, FLOOR_Y + 2, END_Z],
    [16, FLOOR_Y + 2, END_Z],
    [4, 22, 335],
    [-4, 22, 335],
    hex('#ead9b4'),
    FAR,
    4,
    10,
  );
  const random = makeRandom(7);
  const tones = ['#6f9a4c', '#86ab55', '#5d8a52', '#a3b964'].map(hex);
  for (let i = 0; i < 90; i++) {
    const hand = i % 2 ? 1 : -1;
    const far = random.next();
    const x = hand * random.between(24 + 8 * far, 240);
    const z = 300 + 30 * far;
    const y = 62 - 40 * far + random.spread(4);
    const r = random.between(6, 13);
    mesh.ball([x, y, z], [r * 1.3, r, r * 0.5], 10, 7, FAR, (d) =>
      scaled(mix(random.pick(tones), tones[0], 0.5), 0.8 - 0.25 * d[1]),
    );
  }
  // Bushes close outside the side walls, so that the panes have something to show.
  for (let i = 0; i < 44; i++) {
    const hand = i % 2 ? 1 : -1;
    clump(
      mesh,
      FAR,
      random,
      [hand * random.between(106, 130), random.between(66, 92), -80 + i * 8],
      16,
      {
        length: random.between(22, 40),
        width: 8,
        rise: [0.2, 1.4],
        droop: 0.2,
        steps: 3,
        colours: tones,
      },
    );
  }
}
