/** Scale first: the bars by a ruler, before any pitch is believed. */
import type { ScaleCheck } from '../../core/pitch/scale.ts';
import { formatLengthRough, trimmed } from '../../core/units/format.ts';
import { lengthMeasure } from '../../core/units/measure.ts';
import { mm } from '../../core/units/units.ts';
import { changeReading } from '../../job/edits/strip.ts';
import { scaleOf } from '../../job/facts/pitch.ts';
import type { WovenStrip } from '../../job/schema/pitch.ts';
import { BlankMeasure, Fields, Notice, Panel } from '../../ui/index.ts';
import { useChange, useJob, useUnits } from '../studio.ts';
import { useStripToRead } from './use-strip-to-read.ts';

interface BarProps {
  readonly label: 'Bar across' | 'Bar along';
  readonly field: 'measuredAcrossMm' | 'measuredAlongMm';
  readonly strip: WovenStrip;
  readonly drawnMm: number;
}

const Bar = ({ label, field, strip, drawnMm }: BarProps) => {
  const change = useChange();
  const units = useUnits();
  const measured = useJob().pitchStrip?.[field];
  return (
    <BlankMeasure
      label={label}
      value={measured}
      measure={lengthMeasure(units)}
      hint={`Drawn ${formatLengthRough(mm(drawnMm), units)} ${units}, outer edge to outer edge of its ticks.`}
      onCommit={(value) => change(...changeReading(label.toLowerCase(), strip, { [field]: value }))}
    />
  );
};

const percent = (factor: number): string => `${trimmed(factor * 100, 1)} %`;

const WrongScale = ({ across, along }: { across?: ScaleCheck; along?: ScaleCheck }) => {
  const wrong = [across, along].filter((check) => check !== undefined && !check.right);
  if (wrong.some((check) => check?.beyond))
    return (
      <Notice kind="problem" title="That is not this bar" announce>
        One length is less than half or more than twice what was drawn. Was the other bar measured,
        or in another unit?
      </Notice>
    );
  const alike =
    across !== undefined &&
    along !== undefined &&
    Math.abs(across.factor - along.factor) <= across.allowed + along.allowed;
  return (
    <Notice kind="problem" title="The strip was printed at the wrong size" announce>
      <p>
        {across !== undefined && `Across it came out at ${percent(across.factor)}. `}
        {along !== undefined && `Along it came out at ${percent(along.factor)}. `}
        No pitch can be read from it.
      </p>
      <p>
        {alike || along === undefined || across === undefined
          ? 'Something scaled the page to fit. In the print dialog choose actual size or 100 %, switch off “fit to page”, “scale to fit” and borderless printing, and print the strip again.'
          : 'The two ways differ, so the dots were taken for another density. Check Dots across and Dots along against the printer setting, choose actual size or 100 %, and print the strip again.'}
      </p>
    </Notice>
  );
};

const Verdict = ({ strip }: { readonly strip: WovenStrip }) => {
  const { across, along } = scaleOf(useJob(), strip);
  if (across === undefined && along === undefined)
    return (
      <Notice kind="caution" title="Not measured yet">
        A driver that scales the page spoils every pitch read from it. It takes a minute with a
        ruler.
      </Notice>
    );
  if (across?.right === false || along?.right === false)
    return (
      <WrongScale
        {...(across === undefined ? {} : { across })}
        {...(along === undefined ? {} : { along })}
      />
    );
  if (across === undefined || along === undefined)
    return <p>That one is right. Measure the other bar as well.</p>;
  return <p>The scale is right: the ruler finds nothing the driver did.</p>;
};

export const ScalePanel = () => {
  const units = useUnits();
  const strip = useStripToRead();
  if (strip === undefined) return null;
  return (
    <Panel step={2} title="Scale first">
      <p>
        Before the lens is laid on, measure both bars with a ruler, to{' '}
        {units === 'mm' ? 'a quarter of a millimetre' : 'a hundredth of an inch'}.
      </p>
      <Fields least={11}>
        <Bar
          label="Bar across"
          field="measuredAcrossMm"
          strip={strip}
          drawnMm={strip.barAcrossMm}
        />
        <Bar label="Bar along" field="measuredAlongMm" strip={strip} drawnMm={strip.barAlongMm} />
      </Fields>
      <div role="status">
        <Verdict strip={strip} />
      </div>
    </Panel>
  );
};
