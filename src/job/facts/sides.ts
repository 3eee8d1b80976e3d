/** Names of directions on the print, for upright and for lying ribs. */
import type { Printed } from '../schema/trial.ts';

/** Labels of the two counts of bands, by the edges between which the count runs. */
export const bandLabelsOf = ({ ribs }: Pick<Printed, 'ribs'>) => {
  const [leftToRight, topToBottom] = [
    'Bands, counted left to right',
    'Bands, counted top to bottom',
  ];
  return ribs === 'upright'
    ? { across: leftToRight, along: topToBottom }
    : { across: topToBottom, along: leftToRight };
};

/**
 * `forth` and `back` lead across the ribs, `down` and `up` along them; `end` is the end of a band that
 * leans; `bandsAcross` are the bands that a count across the ribs counts, as they lie on the picture.
 */
const sides = {
  upright: {
    forth: 'right',
    back: 'left',
    down: 'down',
    up: 'up',
    across: 'from the left edge to the right',
    along: 'from top to bottom',
    end: 'top end',
    bandsAcross: 'upright',
    bandsAlong: 'level',
  },
  lying: {
    forth: 'down',
    back: 'up',
    down: 'right',
    up: 'left',
    across: 'from top to bottom',
    along: 'from the left edge to the right',
    end: 'left end',
    bandsAcross: 'level',
    bandsAlong: 'upright',
  },
} as const;

export type Sides = (typeof sides)[keyof typeof sides];
export const sidesOf = ({ ribs }: Printed): Sides => sides[ribs];
