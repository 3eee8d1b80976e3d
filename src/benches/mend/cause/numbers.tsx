/** The numbers read from the counts, each with its doubt and the relation behind it. */
import type { ReactNode } from 'react';
import type { Estimate } from '../../../core/mend/counts.ts';
import { formatLength, sayDoubtedLength, trimmed } from '../../../core/units/format.ts';
import { MM_PER_INCH, mm, rad, radToDeg } from '../../../core/units/units.ts';
import type { Diagnosis } from '../../../job/facts/mend.ts';
import { useView } from '../../../state/hooks.ts';
import { Figure } from '../../../ui/index.ts';

const withDoubt = ({ value, plusMinus }: Estimate, decimals: number, unit: string) =>
  `${trimmed(value, decimals)} ±${trimmed(plusMinus, decimals)} ${unit}`;

const wayRound = (turned: number) =>
  turned === 0 ? '' : turned > 0 ? ', clockwise' : ', anticlockwise';

export const Numbers = ({ diagnosis }: { readonly diagnosis: Diagnosis }) => {
  const units = useView((view) => view.units);
  const { reading, setup } = diagnosis;
  const { pitch, skew, offsetMm, scaleAcross, scaleAlong, blur, outOfStepMm } = reading;
  const length = (lengthMm: number) => `${formatLength(mm(lengthMm), units)} ${units}`;
  const figures: ReactNode[] = [];
  const figure = (node: ReactNode) => void figures.push(node);
  if (pitch !== undefined)
    figure(
      <Figure
        key="pitch"
        label="Pitch to weave with"
        value={
          pitch.orLpi === undefined
            ? withDoubt(pitch.viewingLpi, 3, 'LPI')
            : `${trimmed(pitch.viewingLpi.value, 3)} or ${trimmed(pitch.orLpi, 3)} LPI`
        }
        relation="LPI = LPI_woven cos α − bands / W"
        relationNumber={9}
      >
        Woven at {trimmed(MM_PER_INCH / setup.sheet.viewingPitchMm, 3)} LPI.{' '}
        {pitch.orLpi === undefined
          ? 'Nineteen counts in twenty fall within the ±.'
          : 'Which way the bands go as the head moves decides between the two.'}
      </Figure>,
    );
  if (skew !== undefined) {
    const turned = radToDeg(rad(skew.rad.value));
    const plusMinus = trimmed(radToDeg(rad(skew.rad.plusMinus)), 3);
    figure(
      <Figure
        key="skew"
        label="Print lies turned"
        value={
          skew.signKnown
            ? `${trimmed(Math.abs(turned), 3)} ±${plusMinus}°${wayRound(turned)}`
            : `${trimmed(Math.abs(turned), 3)} ±${plusMinus}°, either way`
        }
        relation="tan α = bands × p / H"
        relationNumber={7}
      >
        Its far end is {length(skew.endsMm)} off, the near end held.
      </Figure>,
    );
  }
  if (offsetMm !== undefined)
    figure(
      <Figure
        key="offset"
        label="Print lies beside its place"
        value={sayDoubtedLength(offsetMm, units)}
        relation="x = x_k (1 + g / D) − g x_e / D"
        relationNumber={1}
      >
        {trimmed(offsetMm.value / setup.sheet.viewingPitchMm, 2)} of a rib;{' '}
        {setup.sheet.ribs === 'upright' ? 'to the right' : 'downwards'} positive.
      </Figure>,
    );
  if (scaleAcross !== undefined || scaleAlong !== undefined)
    figure(
      <Figure
        key="scale"
        label="Printed at"
        value={[scaleAcross, scaleAlong]
          .flatMap((scale, i) =>
            scale === undefined
              ? []
              : [
                  `${trimmed(100 * scale.value, 2)} ±${trimmed(100 * scale.plusMinus, 2)} % ${i === 0 ? 'across' : 'along'}`,
                ],
          )
          .join(', ')}
        relation="measured / drawn"
      />,
    );
  if (blur !== undefined)
    figure(
      <Figure
        key="blur"
        label="Optical gap as it lies"
        value={sayDoubtedLength(blur.gapMm, units)}
        relation="zone = p D / g"
        relationNumber={4}
      >
        {sayDoubtedLength(blur.airMm, units)} of it air; ink beyond the plan:{' '}
        {trimmed(blur.extraSpread.value, 2)} ±{trimmed(blur.extraSpread.plusMinus, 2)} of a rib.
      </Figure>,
    );
  if (outOfStepMm !== undefined)
    figure(
      <Figure
        key="step"
        label="Swaths out of step"
        value={sayDoubtedLength(outOfStepMm, units)}
        relation="g × head’s way / D"
        relationNumber={1}
      />,
    );
  return <div>{figures}</div>;
};
