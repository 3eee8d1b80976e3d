/** Dots, frames and what mixes them, each opening to its relation and source. */
import { viewingPitch } from '../../../core/lens/traced.ts';
import { dotSpread } from '../../../core/lens/mix.ts';
import { sayLength, trimmed } from '../../../core/units/format.ts';
import { dotPitchMm, mm, mmToLpi } from '../../../core/units/units.ts';
import type { Job } from '../../../job/schema/job.ts';
import type { LensFacts } from '../../../job/facts/plan.ts';
import { printingOf } from '../../../job/facts/plan.ts';
import { useUnits } from '../../studio.ts';
import { Figure } from '../../../ui/index.ts';
import { gridOf } from '../../../job/facts/printer.ts';

interface Props {
  readonly job: Job;
  readonly facts: LensFacts;
}

const percent = (share: number) => `${trimmed(100 * share, 1)} %`;

const LaidDown = ({ job, facts }: Props) => {
  const units = useUnits();
  const { fit, lens } = facts;
  const dpi = trimmed(gridOf(job).acrossDpi, 2);
  const lpi = mmToLpi(lens.pitchMm);
  const pitch = viewingPitch(lens, mm(job.print.viewingDistanceMm));
  return (
    <>
      <Figure
        label="Dots under a rib"
        value={trimmed(fit.dots, 2)}
        relation={`dpi × p_v / 25.4 = ${dpi} × ${trimmed(pitch, 4)} / 25.4`}
        relationNumber={2}
      >
        At the woven pitch, for {sayLength(job.print.viewingDistanceMm, units)}: a little more than
        dpi / LPI.
      </Figure>
      <Figure
        label="Dots per nominal rib"
        value={trimmed(gridOf(job).acrossDpi / lpi, 2)}
        relation={`dpi / LPI = ${dpi} / ${trimmed(lpi, 3)}`}
        relationNumber={8}
      >
        By lens and printer as they are sold. It says what can be laid down, not what can be seen.
      </Figure>
      <Figure
        label="Whole frames"
        value={`${fit.wholeFrames}`}
        relation={`the whole part of ${trimmed(fit.dots, 2)}`}
      >
        Frames with a dot of their own. Two thousandths short of a whole dot still count, since
        paper and driver stretch as much (common practice, no source).
      </Figure>
      <Figure
        label="Left over"
        value={`${trimmed(fit.leftOver, 2)} of a dot, ${percent(fit.leftOver / fit.dots)}`}
        relation={`dots − frames = ${trimmed(fit.dots, 2)} − ${fit.wholeFrames}, never below 0`}
      >
        That part of every rib falls to two frames at once and smears them a little.
      </Figure>
    </>
  );
};

const Seen = ({ job, facts }: Props) => {
  const { lens, toldApart, spotShare, ownShare } = facts;
  const printing = printingOf(job);
  const spread = dotSpread(dotPitchMm(printing.acrossDpi), lens.pitchMm, printing.columns);
  return (
    <>
      <Figure
        label="Frames told apart"
        value={`${toldApart}`}
        relation="the most N for which (1 / N) Σ M_ii ≥ ½"
        relationNumber={8}
      >
        M is what mixes: spread of the lens and printed dot together, traced for an eye before every
        view. With more frames than this the others outweigh the wanted one; the half is our choice.
      </Figure>
      <Figure
        label="Lens spread"
        value={`${percent(spotShare)} of a rib`}
        relation="√12 × rms / p, landings traced over the open rib"
        relationNumber={8}
      >
        Straight ahead, as an even strip. Snell’s law at the arc, straight on to the print.
      </Figure>
      <Figure
        label="Dot spread"
        value={`${percent(spread)} of a rib`}
        relation={
          printing.columns === 'blended' ? '√2 × (25.4 / dpi) / p' : '(25.4 / dpi) / p, crisp'
        }
        relationNumber={8}
      >
        The dots fall anywhere under a rib; blended columns share each between the frames it covers.
      </Figure>
      <Figure
        label="Own share, on average"
        value={percent(ownShare)}
        relation={`(1 / N) Σ M_ii, N = ${job.viewSlots}`}
        relationNumber={8}
      >
        What an eye before a view sees of that view; the rest is its neighbours.
      </Figure>
    </>
  );
};

export const FitFigures = (props: Props) => (
  <div>
    <LaidDown {...props} />
    <Seen {...props} />
  </div>
);
