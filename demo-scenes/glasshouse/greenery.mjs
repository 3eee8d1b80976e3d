/** The leaf colours of the house, and the cushion of flowers that turns up in beds, pots and foreground alike. */
import { hex } from '../shared/colour.mjs';
import { clump, flower } from '../shared/plants.mjs';
import { FLOOR_Y } from './house.mjs';
import { LEAF, PETAL } from './light.mjs';

export const greens = ['#2f6d36', '#3f8040', '#558f45', '#256044'].map(hex);
export const bright = ['#5c9a40', '#79a848', '#4c8c40'].map(hex);
export const blue = ['#2f7364', '#3f8775', '#559681'].map(hex);
export const fresh = ['#86ad48', '#74a044', '#9cb655'].map(hex);
/** Where plants in the beds have their roots. */
export const bed = FLOOR_Y - 5;

/** A cushion of small leaves with flowers over it. */
export function drift(mesh, random, at, colour, count, reach, size = 2.3) {
  clump(mesh, LEAF, random, at, 12, {
    length: reach * 0.8,
    width: 3.4,
    rise: [0.2, 1.1],
    droop: 0.3,
    steps: 3,
    colours: greens,
  });
  for (let i = 0; i < count; i++) {
    const a = random.next() * 6.283;
    const r = Math.sqrt(random.next()) * reach * 0.6;
    const top = [
      at[0] + r * Math.sin(a),
      at[1] - reach * random.between(0.55, 0.85) + r * 0.3,
      at[2] - r * Math.cos(a),
    ];
    flower(mesh, PETAL, random, top, [random.spread(0.5), -0.5, -1], size, colour, hex('#ffe08a'));
  }
}
