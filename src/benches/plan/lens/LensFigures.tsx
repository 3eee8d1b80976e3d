/** The lens in figures, each with the relation behind it. */
import type { Standing } from '../../../core/lens/focus.ts';
import {
  bestThickness,
  focalError,
  focusThickness,
  observationAngle,
} from '../../../core/lens/focus.ts';
import { opticalGap, paraxialCone, paraxialZone } from '../../../core/lens/lens.ts';
import { gapAhead, tracedGap, viewingCone, zoneWidth } from '../../../core/lens/traced.ts';
import { formatLengthRough, sayFine, trimmed } from '../../../core/units/format.ts';
import { mm, radToDeg } from '../../../core/units/units.ts';
import type { Job } from '../../../job/schema/job.ts';
import { useUnits } from '../../studio.ts';
import { Columns, Figure } from '../../../ui/index.ts';

interface Props {
  readonly job: Job;
  readonly stands: Standing;
}

const radiusWords = {
  given: 'As given for this sheet.',
  crest: 'Not known: inferred so that the rib’s crest focuses on the print.',
  'whole-rib':
    'Not known, and no rib could focus its crest at this thickness: inferred so that the whole open rib focuses best.',
} as const;

const RadiusAndFocus = ({ stands: { lens, radiusFrom } }: Props) => {
  const units = useUnits();
  const fine = (length: number) => sayFine(length, units);
  const { thicknessMm: t, index: n, radiusMm: R } = lens;
  const error = focalError(lens);
  const [tShown, nShown] = [trimmed(t, 4), trimmed(n, 4)];
  const side = error > 0 ? 'behind' : 'before';
  return (
    <>
      <Figure
        label="Traced gap"
        value={fine(tracedGap(lens))}
        relation="g′ = slope of where light lands over tan θ, traced over the whole cone"
        relationNumber={1}
      >
        How far the picture under a rib moves for a step of the eye, over its distance: zone,
        cameras and depth go by it. Straight ahead, where the woven pitch is found, it is{' '}
        {fine(gapAhead(lens))} (g₀).
      </Figure>
      <Figure
        label="Optical gap, paraxial"
        value={fine(opticalGap(lens))}
        relation={`g = t / n = ${tShown} / ${nShown}`}
        relationNumber={1}
      >
        The limit for a slender rib, for comparison. No other figure is computed from it.
      </Figure>
      <Figure
        label={radiusFrom === 'given' ? 'Radius, given' : 'Radius, inferred'}
        value={fine(R)}
        relation={
          radiusFrom === 'crest'
            ? `R = t (n − 1) / n = ${tShown} × ${trimmed(n - 1, 4)} / ${nShown}`
            : `R = ${trimmed(R, 4)} mm`
        }
      >
        {radiusWords[radiusFrom]} (Docs: optics, table of symbols.)
      </Figure>
      <Figure
        label="Focal error at the crest"
        value={Math.abs(error) < 0.0005 ? 'none' : `${fine(Math.abs(error))} ${side} focus`}
        relation={`t − n R / (n − 1) = ${tShown} − ${trimmed(focusThickness(lens), 4)}`}
      >
        Where the print lies, measured from the point at which the rib’s crest focuses.
      </Figure>
      <Figure
        label="Thickness of least spread"
        value={fine(bestThickness(lens))}
        relation="The thickness of least spread: root mean square of 64 traced rays."
        relationNumber={8}
      >
        For the whole open rib; its edges focus nearer than its crest, so it is less than{' '}
        {fine(focusThickness(lens))}.
      </Figure>
    </>
  );
};

const ConeAndZone = ({ job, stands: { lens } }: Props) => {
  const units = useUnits();
  const rough = (length: number) => `${formatLengthRough(mm(length), units)} ${units}`;
  const [p, g] = [trimmed(lens.pitchMm, 4), trimmed(tracedGap(lens), 4)];
  const cone = viewingCone(lens);
  const distance = mm(job.print.viewingDistanceMm);
  const zone = zoneWidth(lens, distance);
  const edge = observationAngle(lens);
  return (
    <>
      <Figure
        label="Viewing cone"
        value={`${trimmed(radToDeg(cone), 1)}°`}
        relation="2 θ, where light from θ lands p / 2 beside the middle of its rib, traced"
        relationNumber={4}
      >
        Within it every view is met once; beyond it they repeat. By t / n it would be{' '}
        {trimmed(radToDeg(paraxialCone(lens)), 1)}° (paraxial).
      </Figure>
      <Figure
        label="Cone by the edge ray"
        value={edge === undefined ? 'no edge ray leaves' : `${trimmed(radToDeg(edge), 1)}°`}
        relation="O = 2 (A − I), A = asin(p / 2R), I = asin(n sin(A − atan(p / h)))"
        relationNumber={4}
      >
        As encyclopaedias give it, by the ray through the rib’s edge; h is the thickness under that
        edge. Suppliers’ angles often follow this one.
      </Figure>
      <Figure
        label="Zone width"
        value={rough(zone)}
        relation={`p D / g′ = ${p} × ${trimmed(distance, 1)} / ${g}`}
        relationNumber={4}
      >
        How far a head can move at the viewing distance through all views. The outermost are a
        little wider: they repeat after {rough(2 * distance * Math.tan(cone / 2))}, the width of the
        cone. By t / n it would be {rough(paraxialZone(lens, distance))} (paraxial).
      </Figure>
      <Figure
        label="One view"
        value={rough(zone / job.viewSlots)}
        relation={`zone / N = ${trimmed(zone, 1)} / ${job.viewSlots}`}
        relationNumber={5}
      >
        Eyes are about {rough(63)} apart: for depth each must get a view of its own.
      </Figure>
    </>
  );
};

export const LensFigures = (props: Props) => (
  <Columns least={18} gap="0 6">
    <div>
      <RadiusAndFocus {...props} />
    </div>
    <div>
      <ConeAndZone {...props} />
    </div>
  </Columns>
);
