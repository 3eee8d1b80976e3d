import { sayLength, sayLengthTo } from '../../../core/units/format.ts';
import { useUnits } from '../../studio.ts';

/** Lengths in the shown unit: for prose, and to a micrometre. */
export const useSay = () => {
  const units = useUnits();
  return {
    say: (length: number) => sayLength(length, units),
    fine: (length: number) => sayLengthTo(length, units, 3),
  };
};
