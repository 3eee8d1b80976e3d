/** The numbers read from the counts, each with its doubt and the relation behind it. */
import { formatLength, sayDoubted, sayDoubtedLength, trimmed } from '../../../core/units/format.ts';
import type { LengthUnit } from '../../../core/units/parse.ts';
import { MM_PER_INCH, mm, rad, radToDeg } from '../../../core/units/units.ts';
import type { Diagnosis } from '../../../job/facts/mend.ts';
import { Figure } from '../../../ui/index.ts';
import { useUnits } from '../../studio.ts';

type Found<Name extends keyof Diagnosis['reading']> = NonNullable<Diagnosis['reading'][Name]>;

interface PitchProps {
  readonly pitch: Found<'pitch'>;
  readonly wovenMm: number;
}

const Pitch = ({ pitch: { viewingLpi, orLpi }, wovenMm }: PitchProps) => (
  <Figure
    label="Pitch to weave with"
    value={
      orLpi === undefined
        ? `${sayDoubted(viewingLpi, 3)} LPI`
        : `${trimmed(viewingLpi.value, 3)} or ${trimmed(orLpi, 3)} LPI`
    }
    relation="LPI = LPI_woven cos α − bands / W"
    relationNumber={9}
  >
    Woven at {trimmed(MM_PER_INCH / wovenMm, 3)} LPI.{' '}
    {orLpi === undefined
      ? 'Nineteen counts in twenty fall within the ±.'
      : 'Which way the bands go as the head moves decides between the two.'}
  </Figure>
);

interface SkewProps {
  readonly skew: Found<'skew'>;
  readonly units: LengthUnit;
}

const Skew = ({ skew, units }: SkewProps) => {
  const turned = radToDeg(rad(skew.rad.value));
  const plusMinus = radToDeg(rad(skew.rad.plusMinus));
  const wayRound = turned === 0 ? '' : turned > 0 ? ', clockwise' : ', anticlockwise';
  return (
    <Figure
      label="Print lies turned"
      value={`${sayDoubted({ value: Math.abs(turned), plusMinus }, 3)}°${skew.signKnown ? wayRound : ', either way'}`}
      relation="sin α = bands × s p_v / (H (1 + g₀ / D)), s the size printed over drawn"
      relationNumber={7}
    >
      Its far end is {`${formatLength(mm(skew.endsMm), units)} ${units}`} off, the near end held.
    </Figure>
  );
};

/** How large the print came out, either way or both. */
const scaleWords = ({ scaleAcross, scaleAlong }: Diagnosis['reading']): string =>
  [[scaleAcross, 'across'] as const, [scaleAlong, 'along'] as const]
    .flatMap(([scale, way]) =>
      scale === undefined
        ? []
        : [
            `${sayDoubted({ value: 100 * scale.value, plusMinus: 100 * scale.plusMinus }, 2)} % ${way}`,
          ],
    )
    .join(', ');

export const Numbers = ({ diagnosis }: { readonly diagnosis: Diagnosis }) => {
  const units = useUnits();
  const { reading, setup } = diagnosis;
  const { pitch, skew, offsetMm, blur, outOfStepMm } = reading;
  const { viewingPitchMm, ribs } = setup.sheet;
  const scales = scaleWords(reading);
  return (
    <div>
      {pitch !== undefined && <Pitch pitch={pitch} wovenMm={viewingPitchMm} />}
      {skew !== undefined && <Skew skew={skew} units={units} />}
      {offsetMm !== undefined && (
        <Figure
          label="Print lies beside its place"
          value={sayDoubtedLength(offsetMm, units)}
          relation="x = x_k (1 + g₀ / D) − g′ x_e / D"
          relationNumber={1}
        >
          {trimmed(offsetMm.value / viewingPitchMm, 2)} of a rib;{' '}
          {ribs === 'upright' ? 'to the right' : 'downwards'} positive.
        </Figure>
      )}
      {scales !== '' && (
        <Figure
          label="Printed at"
          value={scales}
          relation={
            setup.stripBars === undefined
              ? 'measured / drawn'
              : '(measured / drawn) / (measured / drawn of what the pitch was proved on)'
          }
        />
      )}
      {blur !== undefined && (
        <Figure
          label="Traced gap as it lies"
          value={sayDoubtedLength(blur.gapMm, units)}
          relation="zone = p D / g′"
          relationNumber={4}
        >
          {sayDoubtedLength(blur.airMm, units)} of it air; ink beyond the plan:{' '}
          {sayDoubted(blur.extraSpread, 2)} of a rib.
        </Figure>
      )}
      {outOfStepMm !== undefined && (
        <Figure
          label="Swaths out of step"
          value={sayDoubtedLength(outOfStepMm, units)}
          relation="g × head’s way / D"
          relationNumber={1}
        />
      )}
    </div>
  );
};
