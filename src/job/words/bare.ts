/** What is said of paper that a placed picture leaves bare. */
import { sayLengthTo, trimmed } from '../../core/units/format.ts';
import type { LengthUnit } from '../../core/units/parse.ts';
import type { Side } from '../facts/place.ts';

/** A side that is bare by less is within what cutting takes. */
export const BARE_MM = 0.05;

/** "4 mm at the left, 2 mm at the top"; the widest first, undefined where none is bare. */
export const sayBare = (
  bare: Readonly<Record<Side, number>>,
  units: LengthUnit,
): string | undefined => {
  const bared = (Object.keys(bare) as Side[])
    .filter((side) => bare[side] > BARE_MM)
    .sort((a, b) => bare[b] - bare[a])
    .map((side) => `${sayLengthTo(bare[side], units, units === 'mm' ? 1 : 2)} at the ${side}`);
  return bared.length === 0 ? undefined : bared.join(', ');
};

export const sayPercent = (zoom: number): string => `${trimmed(100 * zoom, 1)} %`;
