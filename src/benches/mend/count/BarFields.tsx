/** A length of the print as it was drawn, and as a ruler finds it. */
import { seeingOf } from '../../../job/facts/mend.ts';
import { BlankMeasure } from '../../../ui/index.ts';
import { useJob } from '../../studio.ts';
import { useCounts, useLength } from './use-counts.ts';

interface Props {
  readonly field: 'barAcross' | 'barAlong';
  readonly way: string;
}

export const BarFields = ({ field, way }: Props) => {
  const [counts, change] = useCounts();
  const measure = useLength();
  const { widthMm, heightMm, ribs } = seeingOf(useJob()).printed;
  const bar = counts[field];
  // Any length will do whose size in the file is known; the print's own is always at hand.
  const own = (ribs === 'upright') === (field === 'barAcross') ? widthMm : heightMm;
  const drawnMm = bar?.drawnMm ?? own;
  return (
    <>
      <BlankMeasure
        label={`Length drawn ${way}`}
        value={drawnMm}
        measure={measure}
        hint="The bar on the page, or the print’s own size."
        onCommit={(next) => {
          if (bar !== undefined)
            return change(`length ${way}`, { [field]: { ...bar, drawnMm: next ?? own } });
          return next === own || next === undefined
            ? undefined
            : change(`length ${way}`, { [field]: { drawnMm: next, measuredMm: next } });
        }}
      />
      <BlankMeasure
        label={`Measured ${way}`}
        value={bar?.measuredMm}
        measure={measure}
        hint="By a ruler, to half a millimetre."
        onCommit={(next) =>
          change(`length ${way}`, {
            [field]: next === undefined ? undefined : { drawnMm, measuredMm: next },
          })
        }
      />
    </>
  );
};
