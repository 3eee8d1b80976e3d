/** How askew the lens lay in the photo, and which way to turn what. */
import { tolerance } from '../../core/plan/tolerance.ts';
import { sayDoubted, trimmed } from '../../core/units/format.ts';
import { mm, mmToInch, rad, radToDeg } from '../../core/units/units.ts';
import { alongMm, exactnessOf } from '../../job/facts/plan.ts';
import { acrossMm, lensOf } from '../../job/facts/sheet.ts';
import { Figure, Prose } from '../../ui/index.ts';
import { useJob, useUnits } from '../studio.ts';

const degrees = (angle: number) => radToDeg(rad(angle));

interface Props {
  /** Of the lens on the strip, clockwise positive. */
  readonly skewRad: number;
  /** Two standard deviations. */
  readonly plusMinusRad: number;
}

export const SkewNote = ({ skewRad, plusMinusRad }: Props) => {
  const job = useJob();
  const units = useUnits();
  const length = (value: number) =>
    units === 'mm' ? `${trimmed(value, 2)} mm` : `${trimmed(mmToInch(mm(value)), 3)} in`;
  const along = alongMm(job);
  const allowed = tolerance(
    exactnessOf(job).budgetZones,
    lensOf(job).pitchMm,
    acrossMm(job),
    along,
  ).skewRad;
  const size = Math.abs(skewRad);
  const way = skewRad > 0 ? 'clockwise' : 'anticlockwise';
  const turn = `turn the print ${trimmed(degrees(size), 3)}° ${way} under the lens: ${length(along * Math.tan(size))} from end to end of the ribs of this print (${length(along)}).`;
  return (
    <div>
      <Figure
        label="Skew of the lens in the photo"
        value={`${sayDoubted({ value: degrees(skewRad), plusMinus: degrees(plusMinusRad) }, 3)}°`}
        relation="tan α = v / f, the lens’s lines along its ribs over those across; ± = 2 σ"
        relationNumber={9}
      >
        Positive is clockwise, as the strip is seen. The pitch takes it into account.
      </Figure>
      <Prose>
        {size <= plusMinusRad
          ? 'Square, as far as the photo can tell.'
          : size <= allowed
            ? `Within what this print allows, ±${trimmed(degrees(allowed), 3)}°. To have it square, ${turn}`
            : `More than this print allows, ±${trimmed(degrees(allowed), 3)}°. Laid against the same edges, a print will lie just as askew: ${turn}`}
      </Prose>
    </div>
  );
};
