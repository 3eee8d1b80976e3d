/** The lens in figures, for the job as it stands. */
import { opticalGap, ribRadius, viewingCone, zoneWidth } from '../../core/lens/lens.ts';
import { formatLengthRough, trimmed } from '../../core/units/format.ts';
import { dotPitchMm, dpi, mm, mmToInch, rad, radToDeg } from '../../core/units/units.ts';
import type { Job } from '../../job/job.ts';
import { acrossMm, lensOf, pitchTolerance, ribsAcross } from '../../job/selectors.ts';
import { useJob, useView } from '../../state/hooks.ts';
import { Figure, Panel } from '../../ui/index.ts';
import styles from './LensFigures.module.css';

const quarter = 0.25;

/** The skew that slides the picture a quarter zone along the ribs, degrees (relation 7). */
const skewTolerance = (job: Job) => {
  const along = job.ribs === 'upright' ? job.print.heightMm : job.print.widthMm;
  return { along, degrees: radToDeg(rad(Math.atan((quarter * job.lens.pitchMm) / along))) };
};

const GapAndRadius = ({ job }: { readonly job: Job }) => {
  const lens = lensOf(job);
  const { thicknessMm: t, index: n } = lens;
  return (
    <>
      <Figure
        label="Optical gap"
        value={`${trimmed(opticalGap(lens), 4)} mm`}
        relation={`g = t / n = ${trimmed(t, 4)} / ${trimmed(n, 4)}`}
        relationNumber={1}
      >
        How far the print seems to lie behind the ribs’ centres of curvature.
      </Figure>
      <Figure
        label="Rib radius"
        value={`${trimmed(ribRadius(lens), 4)} mm`}
        relation={
          lens.radiusMm === undefined
            ? `R = t (n − 1) / n = ${trimmed(t, 4)} × ${trimmed(n - 1, 4)} / ${trimmed(n, 4)}`
            : 'As the job says.'
        }
      >
        {lens.radiusMm === undefined && 'Not known, so the print is taken to be in focus.'}
      </Figure>
    </>
  );
};

const ConeAndZone = ({ job }: { readonly job: Job }) => {
  const units = useView((view) => view.units);
  const lens = lensOf(job);
  const [p, g] = [trimmed(lens.pitchMm, 4), trimmed(opticalGap(lens), 4)];
  const distance = mm(job.print.viewingDistanceMm);
  const zone = zoneWidth(lens, distance);
  const rough = (length: number) => `${formatLengthRough(mm(length), units)} ${units}`;
  return (
    <>
      <Figure
        label="Viewing cone"
        value={`${trimmed(radToDeg(viewingCone(lens)), 1)}°`}
        relation={`2 atan(p / 2g) = 2 atan(${p} / (2 × ${g}))`}
        relationNumber={4}
      >
        Within it every view is met once; beyond it they repeat.
      </Figure>
      <Figure
        label="Zone width"
        value={rough(zone)}
        relation={`p D / g = ${p} × ${trimmed(distance, 1)} / ${g}`}
        relationNumber={4}
      >
        How far a head can move at the viewing distance before the views repeat.
      </Figure>
      <Figure
        label="One view"
        value={rough(zone / job.viewSlots)}
        relation={`zone / N = ${trimmed(zone, 1)} / ${job.viewSlots}`}
        relationNumber={5}
      >
        Eyes are about 63 mm apart: for depth each must get a view of its own.
      </Figure>
    </>
  );
};

const Exactness = ({ job }: { readonly job: Job }) => {
  const across = acrossMm(job);
  const skew = skewTolerance(job);
  return (
    <>
      <Figure
        label="Ribs over the print"
        value={trimmed(ribsAcross(job), 1)}
        relation={`W / p = ${trimmed(across, 1)} / ${trimmed(job.lens.pitchMm, 4)}`}
      />
      <Figure
        label="Printed dot"
        value={`${trimmed(1000 * dotPitchMm(dpi(job.printer.acrossDpi)), 1)} µm`}
        relation={`25.4 / dpi = 25.4 / ${trimmed(job.printer.acrossDpi, 2)}`}
      />
      <Figure
        label="Pitch exact to"
        value={`±${trimmed(pitchTolerance(job, quarter), 3)} LPI`}
        relation={`ΔLPI = τ / W(in) = ${quarter} / ${trimmed(mmToInch(across), 2)}`}
        relationNumber={7}
      >
        Then the picture slides at most a quarter of a zone from edge to edge.
      </Figure>
      <Figure
        label="Square to"
        value={`±${trimmed(skew.degrees, 3)}°`}
        relation={`tan α = τ p / H = ${quarter} × ${trimmed(job.lens.pitchMm, 4)} / ${trimmed(skew.along, 1)}`}
        relationNumber={7}
      >
        Over the whole print that is a quarter of a rib, {trimmed(quarter * job.lens.pitchMm, 2)}{' '}
        mm.
      </Figure>
    </>
  );
};

export const LensFigures = () => {
  const job = useJob();
  return (
    <Panel title="This lens over this print">
      <div className={styles['columns']}>
        <div>
          <GapAndRadius job={job} />
          <ConeAndZone job={job} />
        </div>
        <div>
          <Exactness job={job} />
        </div>
      </div>
    </Panel>
  );
};
