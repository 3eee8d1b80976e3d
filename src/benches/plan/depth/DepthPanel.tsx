/** How deep the scene may be: the budget as a ruler, with the person's things on it. */
import { nameInText } from '../../../core/names/shown.ts';
import { depthInWords } from '../../../core/units/depth-measure.ts';
import { lengthMeasure, plainMeasure } from '../../../core/units/measure.ts';
import { trimmed } from '../../../core/units/format.ts';
import { setDepthGain } from '../../../job/edits/consequences.ts';
import { depthGainOf, depthMarksOf, eyesApartOf } from '../../../job/facts/plan.ts';
import { useChange, useJob, useUnits } from '../../studio.ts';
import {
  Fields,
  FiguresTable,
  MeasureField,
  Name,
  Notice,
  Panel,
  Prose,
} from '../../../ui/index.ts';
import { DepthFigures } from './DepthFigures.tsx';
import { DepthRuler } from './DepthRuler.tsx';
import { deepestMark, depthFacts, markFacts, qualityWords } from '../../../job/facts/depth.ts';
import { MarkList } from './MarkList.tsx';

const gainMeasure = plainMeasure(0.01, 4);

const GainFields = () => {
  const job = useJob();
  const change = useChange();
  const units = useUnits();
  return (
    <Fields least={13}>
      <MeasureField
        label="Depth gain"
        value={depthGainOf(job)}
        measure={gainMeasure}
        hint="1 is true depth; below 1 flattens it."
        onCommit={(gain) => change('depth gain', (now) => setDepthGain(now, gain), 'depthGain')}
      />
      {job.ribs === 'upright' && (
        <MeasureField
          label="Eyes apart"
          value={eyesApartOf(job)}
          measure={lengthMeasure(units, 0.5, 0.02)}
          hint={
            units === 'mm'
              ? '63 mm on average; nearly all adults 50 to 75.'
              : '2.48 in on average; nearly all adults 1.97 to 2.95.'
          }
          onCommit={(eyesApartMm) =>
            change('eyes apart', (now) => ({ ...now, eyesApartMm }), 'eyesApart')
          }
        />
      )}
    </Fields>
  );
};

const Behind = () => {
  const job = useJob();
  const units = useUnits();
  const { sharp, soft } = depthFacts(job);
  const where = (z: number) => depthInWords(z, units);
  const things = depthMarksOf(job).map((mark, place) => {
    const facts = markFacts(job, mark);
    return [
      mark.name === '' ? `Thing ${place + 1}` : nameInText(mark.name),
      where(mark.zMm),
      facts === undefined ? 'behind the eye' : qualityWords[facts.quality],
    ];
  });
  return (
    <FiguresTable
      caption="The depth ruler in figures"
      head={['What', 'Where', 'Shown']}
      rows={[
        ['Sharp ends in front', where(sharp.frontMm), 'sharp'],
        ['Sharp ends behind', where(sharp.behindMm), 'sharp'],
        ['Soft ends in front', where(soft.frontMm), 'soft'],
        ['Soft ends behind', where(soft.behindMm), 'soft'],
        ...things,
      ]}
    />
  );
};

const Strain = () => {
  const job = useJob();
  const mark = deepestMark(job);
  const facts = mark === undefined ? undefined : markFacts(job, mark);
  if (job.ribs !== 'upright' || facts === undefined || !facts.strains) return null;
  return (
    <Notice kind="caution" title="Strong depth strains the eyes">
      {mark === undefined || mark.name === '' ? 'One thing' : <Name>{mark.name}</Name>} asks{' '}
      {trimmed(Math.abs(facts.degrees), 1)}° of the eyes; about one degree is comfortable. Lower the
      gain or look from further away, and stop if it hurts.
    </Notice>
  );
};

export const DepthPanel = () => {
  const { ribs } = useJob();
  return (
    <Panel title="How deep it may be">
      {ribs === 'lying' && (
        <Notice kind="info" title="Lying ribs show no depth">
          Both eyes see the same view; only tilting changes it. The limits below are for how far
          things move from view to view.
        </Notice>
      )}
      <GainFields />
      <DepthFigures />
      <DepthRuler />
      <Prose>
        Equal lengths on the ruler are equal parallax, so any distance has its place. Drag a thing,
        or move it with the arrow keys; a depth can be typed as “35 mm in front” or “4 in behind”.
      </Prose>
      <Strain />
      <MarkList />
      <Behind />
    </Panel>
  );
};
