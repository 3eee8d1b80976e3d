import { sayLength, sayLengthTo } from '../../../core/units/format.ts';
import { useUnits } from '../../studio.ts';

/** Lengths in the shown unit: for prose, to a micrometre, and to a millimetre. */
export const useSay = () => {
  const units = useUnits();
  return {
    say: (length: number) => sayLength(length, units),
    whole: (length: number) => sayLengthTo(length, units, 0),
    fine: (length: number) => sayLengthTo(length, units, 3),
  };
};
