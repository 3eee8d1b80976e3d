/** The cross-section and what its trace gives over the whole cone, in figures. */
import { useMemo, useState } from 'react';
import type { Standing } from '../../../core/lens/focus.ts';
import { trimmed, withMinus } from '../../../core/units/format.ts';
import { mm, mmToInch } from '../../../core/units/units.ts';
import { useUnits } from '../../studio.ts';
import { FiguresTable } from '../../../ui/index.ts';
import { CrossSection } from './CrossSection.tsx';
import { LandingPlot } from './LandingPlot.tsx';
import { halfCone, landings, sayAngle, slotAt } from '../../../preview/drawings/ray-fan.ts';

interface Props {
  readonly lens: Standing['lens'];
  readonly viewSlots: number;
}

export const LensDrawings = ({ lens, viewSlots }: Props) => {
  const [wanted, setAngle] = useState(0);
  const units = useUnits();
  const cell = (lengthMm: number) =>
    withMinus(trimmed(units === 'mm' ? lengthMm : mmToInch(mm(lengthMm)), units === 'mm' ? 4 : 5));
  const half = halfCone(lens);
  const angle = Math.max(-half, Math.min(half, wanted));
  const all = useMemo(() => landings(lens), [lens]);
  return (
    <>
      <CrossSection lens={lens} viewSlots={viewSlots} angle={angle} onAngle={setAngle} />
      <LandingPlot all={all} pitchMm={lens.pitchMm} angle={angle} />
      <FiguresTable
        caption="Where each view direction lands, in figures"
        head={[
          'Looked at from',
          `Lands at, ${units}`,
          `By relation 1, ${units}`,
          `Spread, ${units}`,
          'View slot',
        ]}
        rows={all.map(({ angleRad, meanMm, paraxialMm, fullMm }) => [
          sayAngle(angleRad),
          meanMm === undefined ? 'nowhere' : cell(meanMm),
          cell(paraxialMm),
          cell(fullMm),
          meanMm === undefined ? '' : String(slotAt(meanMm, lens.pitchMm, viewSlots).slot + 1),
        ])}
      />
    </>
  );
};
