/** What the directions of the counts are called for the way the ribs run. */
import type { Printed } from '../schema/trial.ts';

export interface Sides {
  /** Across the ribs: the way the head goes first, and back. */
  readonly forth: string;
  readonly back: string;
  /** Along the ribs. */
  readonly down: string;
  readonly up: string;
  /** Edges met going across, and going along. */
  readonly across: string;
  readonly along: string;
  /** The end of a band that leans. */
  readonly end: string;
}

/** What the two counts of bands are called: each by the edges that the count runs between. */
export const bandLabelsOf = ({ ribs }: Pick<Printed, 'ribs'>) => {
  const [leftToRight, topToBottom] = [
    'Bands, counted left to right',
    'Bands, counted top to bottom',
  ];
  return ribs === 'upright'
    ? { across: leftToRight, along: topToBottom }
    : { across: topToBottom, along: leftToRight };
};

export const sidesOf = ({ ribs }: Printed): Sides =>
  ribs === 'upright'
    ? {
        forth: 'right',
        back: 'left',
        down: 'down',
        up: 'up',
        across: 'from the left edge to the right',
        along: 'from top to bottom',
        end: 'top end',
      }
    : {
        forth: 'down',
        back: 'up',
        down: 'right',
        up: 'left',
        across: 'from top to bottom',
        along: 'from the left edge to the right',
        end: 'left end',
      };
