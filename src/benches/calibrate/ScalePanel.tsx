/** Scale first: the bars by a ruler, before any pitch is believed. */
import type { Scale } from '../../core/pitch/scale.ts';
import { scaleFinding } from '../../core/pitch/scale.ts';
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

/** What both bars say; nothing where neither is measured. */
const found = ({ across, along }: Scale): string =>
  [
    ...(across === undefined ? [] : [`Across it came out at ${percent(across.factor)}.`]),
    ...(along === undefined ? [] : [`Along it came out at ${percent(along.factor)}.`]),
  ].join(' ');

const spoiling = {
  scaled:
    'Paper does not do that: something scaled the page. It made the dots anew, and will scale a page of another size otherwise. In the print dialog choose actual size or 100 %, switch off “fit to page”, “scale to fit” and borderless printing, and print the strip again.',
  'two-ways':
    'The two ways differ by more than paper does, so the dots were taken for another density. Check Dots across and Dots along against the printer setting, choose actual size or 100 %, and print the strip again.',
} as const;

const Verdict = ({ strip }: { readonly strip: WovenStrip }) => {
  const scale = scaleOf(useJob(), strip);
  const finding = scaleFinding(scale);
  const other =
    scale.across === undefined || scale.along === undefined
      ? ' Measure the other bar as well.'
      : '';
  switch (finding) {
    case 'unmeasured':
      return (
        <Notice kind="caution" title="Not measured yet">
          A driver that scales the page spoils every pitch read from it. It takes a minute with a
          ruler.
        </Notice>
      );
    case 'beyond':
      return (
        <Notice kind="problem" title="That is not this bar" announce>
          One length is less than half or more than twice what was drawn. Was the other bar
          measured, or in another unit?
        </Notice>
      );
    case 'scaled':
    case 'two-ways':
      return (
        <Notice kind="problem" title="The strip was printed at the wrong size" announce>
          <p>{found(scale)} No pitch can be read from it.</p>
          <p>{spoiling[finding]}</p>
        </Notice>
      );
    case 'stretched':
      return (
        <p>
          {found(scale)} Paper and feed do that. It spoils nothing: the reading of the strip
          contains it, and the print comes out alike on the same paper, the same way through the
          printer.{other}
        </p>
      );
    case 'right':
      return other === '' ? (
        <p>The scale is right: the ruler finds nothing the driver did.</p>
      ) : (
        <p>That one is right.{other}</p>
      );
  }
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
