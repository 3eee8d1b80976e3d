/** What the fields of this panel read and change: the counts, and the words and unit they are given in. */
import { lengthMeasure } from '../../../core/units/measure.ts';
import { changeCounts } from '../../../job/edits/seen.ts';
import { seeingOf } from '../../../job/facts/mend.ts';
import { bandLabelsOf, sidesOf } from '../../../job/facts/sides.ts';
import { useChange, useJob, useUnits } from '../../studio.ts';

/** The counts of the print on the table, and what changes some of them or refuses to. */
export const useCounts = () => {
  const change = useChange();
  const { counts } = seeingOf(useJob());
  return [
    counts,
    (...edit: Parameters<typeof changeCounts>) => change(...changeCounts(...edit)),
  ] as const;
};

export const useSides = () => sidesOf(seeingOf(useJob()).printed);
export const useBandLabels = () => bandLabelsOf(seeingOf(useJob()).printed);
export const useLength = () => lengthMeasure(useUnits());
