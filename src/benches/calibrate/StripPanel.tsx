/** The strip: its bands, its paper, and the way to the finished file. */
import { paperAcrossMm } from '../../core/pitch/paper.ts';
import { stripSize } from '../../core/pitch/strip-rows.ts';
import { bandStep } from '../../core/pitch/strip.ts';
import { formatLengthRough, trimmed } from '../../core/units/format.ts';
import { lengthMeasure, pitchMeasure, plainMeasure } from '../../core/units/measure.ts';
import { lpi, lpiToMm, mm, mmToInch, mmToLpi } from '../../core/units/units.ts';
import { changeStrip } from '../../job/edits/strip.ts';
import {
  advisedBands,
  bandPlanOf,
  paperOf,
  readFromOf,
  stripPlanOf,
} from '../../job/facts/pitch.ts';
import { isMirrored } from '../../job/facts/printer.ts';
import { gridOf } from '../../job/facts/printer.ts';
import { acrossMm, sheetDensity } from '../../job/facts/sheet.ts';
import { edgeWords } from '../../job/words/printer.ts';
import { weaveStrip } from '../../studio/weave/strip.ts';
import { Button, Fields, Figure, MeasureField, Notice, Panel, Prose, Row } from '../../ui/index.ts';
import { MakeFile } from '../desk/MakeFile.tsx';
import { NumberFields } from '../desk/NumberFields.tsx';
import { FileTypeField } from '../desk/FileTypeField.tsx';
import { useEdit, useJob, useStudio, useUnits } from '../studio.ts';
import { PaperFields } from './PaperFields.tsx';

const spreadMeasure = plainMeasure(0.01, 3, '± LPI');
const bandsMeasure = plainMeasure(2, 0);

const StripFields = () => {
  const change = useEdit(changeStrip);
  const job = useJob();
  const far = lengthMeasure(useUnits(), 10, 1);
  const plan = bandPlanOf(job);
  return (
    <Fields least={11}>
      <MeasureField
        label="Strip centre"
        value={lpiToMm(lpi(plan.centreLpi))}
        measure={pitchMeasure('lpi')}
        hint="Woven pitch of the middle band."
        onCommit={(pitch) => change('strip centre', { centreLpi: mmToLpi(mm(pitch)) })}
      />
      <NumberFields
        of={{ ...plan, readFromMm: readFromOf(job) }}
        rows={[
          ['spreadLpi', 'Strip spread', spreadMeasure, 'To the outermost band, either way.'],
          ['bands', 'Bands', bandsMeasure],
          ['readFromMm', 'Reading distance', far, 'From the eye, straight ahead of the middle.'],
        ]}
        edit={change}
      />
      <PaperFields />
    </Fields>
  );
};

const Advice = () => {
  const change = useEdit(changeStrip);
  const job = useJob();
  const advised = advisedBands(job);
  const plan = bandPlanOf(job);
  const isAdvised =
    plan.centreLpi === advised.centreLpi &&
    plan.spreadLpi === advised.spreadLpi &&
    plan.bands === advised.bands;
  const words = `${advised.bands} bands, ±${trimmed(advised.spreadLpi, 3)} round ${trimmed(advised.centreLpi, 3)} LPI`;
  return (
    <Row gap="2 4">
      <p>
        {advised.grain === 'fine' ? 'A fine strip' : 'A coarse strip'} is advised: {words}.{' '}
        {advised.grain === 'fine'
          ? 'One step drifts by the job’s budget over the strip’s width.'
          : 'More is in doubt than fine steps could cover: count its fringes, or weave a fine strip after it.'}
      </p>
      {!isAdvised && (
        <Button
          onClick={() =>
            void change('strip advice', {
              centreLpi: undefined,
              spreadLpi: undefined,
              bands: undefined,
            })
          }
        >
          Take the advice
        </Button>
      )}
    </Row>
  );
};

const Facts = () => {
  const job = useJob();
  const units = useUnits();
  const made = stripPlanOf(job, units);
  if (!made.ok)
    return (
      <Notice kind="problem" title="This strip cannot be woven">
        {made.message}
      </Notice>
    );
  const { widthDots, heightDots } = stripSize(made.spec);
  const { horizontalDpi, verticalDpi } = sheetDensity(job);
  const rough = (length: number) => `${formatLengthRough(mm(length), units)} ${units}`;
  const size = `${rough((widthDots * 25.4) / horizontalDpi)} × ${rough((heightDots * 25.4) / verticalDpi)}`;
  const step = bandStep(bandPlanOf(job));
  return (
    <div>
      <Figure
        label="From band to band"
        value={`${trimmed(step, 3)} LPI`}
        relation={`ΔLPI · W(in) = ${trimmed(step, 3)} × ${trimmed(mmToInch(made.acrossMm), 3)} = ${trimmed(step * mmToInch(made.acrossMm), 3)} of a zone`}
        relationNumber={7}
      >
        How much more the picture drifts, from edge to edge, in one band than in the next.
      </Figure>
      <Figure
        label="Strip"
        value={size}
        relation={`${widthDots} × ${heightDots} dots at ${trimmed(horizontalDpi, 2)} × ${trimmed(verticalDpi, 2)} dpi`}
      >
        The lines fall between dots where they must; nothing is rounded to dots.
      </Figure>
      {made.narrowed && (
        <Notice kind="caution" title="Narrower than the print">
          The print is {rough(acrossMm(job))} across its ribs; with labels and margins that takes{' '}
          {rough(paperAcrossMm(acrossMm(job), paperOf(job).marginMm))} of paper. The bands are{' '}
          {rough(made.acrossMm)} instead, and tell the pitch less exactly.
        </Notice>
      )}
    </div>
  );
};

const Making = () => {
  const studio = useStudio();
  const job = useJob();
  const units = useUnits();
  return (
    <MakeFile
      kind="strip"
      name="strip"
      off={!stripPlanOf(job, units).ok}
      onWeave={(asked) => void weaveStrip(studio, asked)}
    />
  );
};

export const StripPanel = () => (
  <Panel step={1} title="The strip">
    <StripFields />
    <Advice />
    <Making />
    <Facts />
    <FileTypeField />
    <Prose>
      Print it at 100 %, no scaling, on the paper and with the setting of the sheet, and the same
      way through the printer: {edgeWords[gridOf(useJob()).fedFirst]} first; the arrow points to the
      top edge. A steady stretch of paper and ink is then in the reading already. Let the ink dry.
      {isMirrored(useJob()) &&
        ' The strip is mirrored as the print is: lay the bare side of its film to the lens, so that its figures read right.'}
    </Prose>
  </Panel>
);
