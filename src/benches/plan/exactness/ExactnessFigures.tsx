/** How exact everything must be, in figures. */
import { slideFromStretch, stretchedLpi, widestFor } from '../../../core/plan/tolerance.ts';
import { formatLengthRough, trimmed } from '../../../core/units/format.ts';
import { lpi, mm, mmToInch, mmToLpi, radToDeg } from '../../../core/units/units.ts';
import type { Job } from '../../../job/schema/job.ts';
import { alongMm, exactnessOf, toleranceOf } from '../../../job/facts/plan.ts';
import { acrossMm, lensOf, viewingPitchOf } from '../../../job/facts/sheet.ts';
import { useJob, useUnits } from '../../studio.ts';
import type { Units } from '../../../state/view.ts';
import { Columns, Figure } from '../../../ui/index.ts';

interface Props {
  readonly job: Job;
  readonly units: Units;
}

const rough = (length: number, units: Units) => `${formatLengthRough(mm(length), units)} ${units}`;
/** Parts of a rib: hundredths of a millimetre. */
const fine = (length: number, units: Units) =>
  units === 'mm' ? `${trimmed(length, 3)} mm` : `${trimmed(mmToInch(mm(length)), 4)} in`;

const Must = ({ job, units }: Props) => {
  const { budgetZones: budget } = exactnessOf(job);
  const { pitchLpi, pitchShare, skewRad, skewMm, centringMm } = toleranceOf(job);
  const [p, along] = [trimmed(job.lens.pitchMm, 4), trimmed(alongMm(job), 1)];
  return (
    <>
      <Figure
        label="Pitch exact to"
        value={`±${trimmed(pitchLpi, 4)} LPI · ${trimmed(100 * pitchShare, 3)} %`}
        relation={`ΔLPI = τ / W(in) = ${trimmed(budget, 4)} / ${trimmed(mmToInch(acrossMm(job)), 3)}`}
        relationNumber={7}
      >
        Lens and print together. The wider the print, the more ribs for an error to add up over.
      </Figure>
      <Figure
        label="Square to"
        value={`±${trimmed(radToDeg(skewRad), 4)}° · ${fine(skewMm, units)}`}
        relation={`tan α = τ p / H = ${trimmed(budget, 4)} × ${p} / ${along}`}
        relationNumber={7}
      >
        The length is how far one end may stand off the ribs while the other is on them, over{' '}
        {rough(alongMm(job), units)}.
      </Figure>
      <Figure
        label="Centred to"
        value={`±${fine(centringMm, units)}`}
        relation={`τ p = ${trimmed(budget, 4)} × ${p}`}
        relationNumber={1}
      >
        Off by this, the whole picture is seen turned by the budget: straight ahead is no longer in
        the middle. By a whole rib it is right again.
      </Figure>
    </>
  );
};

const May = ({ job, units }: Props) => {
  const { budgetZones: budget, pitchUnsureLpi, stretchShare } = exactnessOf(job);
  const lens = lensOf(job);
  const across = acrossMm(job);
  const woven = mmToLpi(viewingPitchOf(job));
  const [s, wide] = [trimmed(stretchShare, 6), trimmed(mmToInch(across), 3)];
  return (
    <>
      <Figure
        label="Widest print, as the pitch is known now"
        value={`${rough(widestFor(budget, lpi(pitchUnsureLpi)), units)} across`}
        relation={`W = τ / ΔLPI = ${trimmed(budget, 4)} / ${trimmed(pitchUnsureLpi, 4)} in`}
        relationNumber={7}
      >
        Across the ribs, as long as the pitch is known no better than ±{trimmed(pitchUnsureLpi, 4)}{' '}
        LPI. A strip makes it better known, and the print may be wider.
      </Figure>
      <Figure
        label="Stretch slides it by"
        value={`${trimmed(slideFromStretch(stretchShare, lens.pitchMm, across), 3)} of a zone`}
        relation={`s · LPI · W(in) = ${s} × ${trimmed(mmToLpi(lens.pitchMm), 3)} × ${wide}`}
        relationNumber={7}
      >
        From edge to edge. A strip printed the same way is stretched alike, so a proved pitch has it
        in already: then only what changes from sheet to sheet is left.
      </Figure>
      <Figure
        label="Pitch on the paper"
        value={`${trimmed(stretchedLpi(woven, stretchShare), 3)} … ${trimmed(stretchedLpi(woven, -stretchShare), 3)} LPI`}
        relation={`LPI_v / (1 ± s) = ${trimmed(woven, 3)} / (1 ± ${s})`}
        relationNumber={2}
      >
        What a print woven at {trimmed(woven, 3)} LPI comes out at: stretched, and shrunk.
      </Figure>
    </>
  );
};

export const ExactnessFigures = () => {
  const job = useJob();
  const units = useUnits();
  return (
    <Columns least={20} gap="0 6">
      <div>
        <Must job={job} units={units} />
      </div>
      <div>
        <May job={job} units={units} />
      </div>
    </Columns>
  );
};
