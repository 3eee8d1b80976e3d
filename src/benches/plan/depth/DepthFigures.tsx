/** The depth budget in figures. */
import { viewsBetweenEyes } from '../../../core/plan/depth.ts';
import { depthInWords } from '../../../core/units/depth-measure.ts';
import { trimmed } from '../../../core/units/format.ts';
import { mm, radToDeg } from '../../../core/units/units.ts';
import { COMFORT_RAD } from '../../../core/plan/depth.ts';
import type { DepthRange } from '../../../core/plan/depth.ts';
import { depthGainOf, eyesApartOf } from '../../../job/facts/plan.ts';
import { useJob, useUnits } from '../../studio.ts';
import { Figure } from '../../../ui/index.ts';
import { deepestMark, depthFacts, markFacts } from '../../../job/facts/depth.ts';

const Deepest = () => {
  const job = useJob();
  const mark = deepestMark(job);
  const facts = mark === undefined ? undefined : markFacts(job, mark);
  const limit = trimmed(radToDeg(COMFORT_RAD), 1);
  return (
    <Figure
      label="Deepest thing, between the eyes"
      value={facts === undefined ? 'no thing placed' : `${trimmed(Math.abs(facts.degrees), 2)}°`}
      relation="difference of the eyes’ angles on the thing and on the print, 2 atan(I / 2D) at the print"
      relationNumber={6}
    >
      About {limit}° is comfortable (Lambooij and others, Journal of Imaging Science and Technology
      53, 2009).
    </Figure>
  );
};

export const DepthFigures = () => {
  const job = useJob();
  const units = useUnits();
  const { setting, sharp, soft, comfort } = depthFacts(job);
  const { lens, viewSlots, distanceMm } = setting;
  const gain = trimmed(depthGainOf(job), 4);
  const range = ({ frontMm, behindMm }: DepthRange) =>
    `${depthInWords(frontMm, units)} … ${depthInWords(behindMm, units)}`;
  const between = viewsBetweenEyes(lens, viewSlots, distanceMm, eyesApartOf(job));
  return (
    <div>
      <Figure
        label="Sharp"
        value={range(sharp)}
        relation={`|s| ≤ p, s = γ D p / (N g′) · z / (D + z), γ = ${gain}, N = ${viewSlots}, D = ${trimmed(distanceMm, 1)}`}
        relationNumber={6}
      >
        There a point moves at most one rib from view to view.
      </Figure>
      <Figure
        label="Soft"
        value={range(soft)}
        relation="|s| ≤ 2 p: half of the lens’s resolution is left (p / |s|)"
        relationNumber={6}
      >
        Beyond it things break up into double edges (two ribs: our choice, no source).
      </Figure>
      {job.ribs === 'upright' && (
        <>
          <Figure
            label="Views between the eyes"
            value={trimmed(between, 2)}
            relation={`I N g′ / (D p), I = ${trimmed(eyesApartOf(job), 1)} mm`}
            relationNumber={5}
          >
            {between < 1
              ? 'Under one: both eyes see the same view, and there is no depth.'
              : 'From one on, each eye gets a view of its own.'}
          </Figure>
          <Deepest />
          <Figure
            label="Comfortable"
            value={range(comfort)}
            relation={`disparity ≤ ${trimmed(radToDeg(COMFORT_RAD), 1)}° for eyes ${trimmed(mm(eyesApartOf(job)), 1)} mm apart at ${trimmed(distanceMm, 0)} mm`}
            relationNumber={6}
          >
            Lambooij and others, 2009; the limit is dashed on the ruler where it lies on it.
          </Figure>
        </>
      )}
    </div>
  );
};
