/** Water thrown up where the bird goes in and where it comes out: jets that stand in a ring, and drops that fly and fall. */
import { hex } from '../shared/colour.mjs';
import { leaf } from '../shared/plants.mjs';
import { makeRandom } from '../shared/prng.mjs';
import { normalise } from '../shared/vector.mjs';
import { ENTRY, ENTRY_FRAME } from './dive.mjs';
import { DROP, WATER_Y } from './light.mjs';

const TINT = ['#f4fbff', '#d3ecf4', '#b4dcea'].map(hex);

export function splash(mesh, frame) {
  const t = frame - ENTRY_FRAME;
  if (t < 0 || t > 5) return;
  if (t <= 3) crownOf(mesh, t);
  drops(mesh, t);
}

/** Height of the ring of jets in the frames from entry on. */
const HEIGHT = [21, 34, 25, 8];
/** Its radius: it has to clear the bird's shoulders as it goes in. */
const RADIUS = [14.5, 13, 16, 20.5];

function crownOf(mesh, t) {
  const random = makeRandom(500 + t);
  const [cx, cz] = ENTRY;
  const radius = RADIUS[t];
  for (let i = 0; i < 34; i++) {
    const a = (i / 34) * 2 * Math.PI + random.spread(0.1);
    const out = (t ? 0.25 + 0.16 * t : 0.55) + random.spread(0.12);
    const dir = normalise([Math.sin(a) * out, -1, -Math.cos(a) * out]);
    const height = HEIGHT[t] * random.between(0.45, 1.1);
    leaf(mesh, DROP, {
      base: [cx + radius * Math.sin(a), WATER_Y + 0.4, cz - radius * Math.cos(a)],
      dir,
      length: height,
      width: 3.6 + 0.03 * height,
      droop: 0.12,
      fold: 0.15,
      steps: 6,
      shape: 'heart',
      colour: random.pick(TINT),
    });
    const tip = [
      cx + radius * Math.sin(a) + dir[0] * height,
      WATER_Y + dir[1] * height * 0.95,
      cz - radius * Math.cos(a) + dir[2] * height,
    ];
    const r = random.between(0.7, 1.5);
    mesh.ball(tip, [r, r * 1.15, r], 8, 6, DROP, () => TINT[0]);
  }
}

function drops(mesh, t) {
  const random = makeRandom(77);
  const [cx, cz] = ENTRY;
  for (let i = 0; i < 90; i++) {
    const a = random.next() * 2 * Math.PI;
    const out = random.between(3, 17);
    const up = random.between(16, 44);
    const late = random.next() < 0.35 ? 1 : 0;
    const s = t - late + 0.35;
    const size = random.between(0.5, 1.5);
    const y = WATER_Y - up * s + 12.5 * s * s;
    if (s <= 0 || y > WATER_Y - size) continue;
    mesh.ball(
      [cx + Math.sin(a) * out * s, y, cz - Math.cos(a) * out * s * 0.8],
      [size, size * 1.2, size],
      8,
      6,
      DROP,
      () => TINT[i % 3],
    );
  }
}
