/** One field, or a few that belong together, for each thing that may be asked of the print. */
import type { ReactNode } from 'react';
import { Fragment } from 'react';
import type { Asked } from '../../../core/mend/symptoms.ts';
import { plainMeasure } from '../../../core/units/measure.ts';
import { BlankMeasure, Fields } from '../../../ui/index.ts';
import { BarFields } from './BarFields.tsx';
import { Choice } from './Choice.tsx';
import { PatchChoice } from './PatchChoice.tsx';
import { StripeFields } from './StripeFields.tsx';
import { useBandLabels, useCounts, useLength, useSides } from './use-counts.ts';

const bandsMeasure = plainMeasure(0.25, 2);

type NumberField =
  'bandsAcross' | 'bandsAlong' | 'jumpForthMm' | 'jumpBackMm' | 'repeatMm' | 'jumpTakesMm';

const NumberOf = (props: { field: NumberField; label: string; hint: string; bands?: boolean }) => {
  const [counts, change] = useCounts();
  const length = useLength();
  return (
    <BlankMeasure
      label={props.label}
      value={counts[props.field]}
      measure={props.bands === true ? bandsMeasure : length}
      hint={props.hint}
      // Undo has little room: what is counted, without how.
      onCommit={(next) => {
        const [counted = props.label] = props.label.toLowerCase().split(',');
        return change(counted, { [props.field]: next });
      }}
    />
  );
};

type YesNoField = 'standingStripes' | 'hardEdges' | 'doubledByDepth' | 'clearBetween';

const YesNo = ({ field, label }: { readonly field: YesNoField; readonly label: string }) => {
  const [counts, change] = useCounts();
  const value = counts[field];
  return (
    <Choice
      label={label}
      value={value === undefined ? undefined : value ? 'yes' : 'no'}
      choices={[
        ['yes', 'Yes'],
        ['no', 'No'],
      ]}
      onChange={(next) =>
        void change(label.toLowerCase(), {
          [field]: next === undefined ? undefined : next === 'yes',
        })
      }
    />
  );
};

const Lean = () => {
  const [{ lean }, change] = useCounts();
  const { end, forth, back } = useSides();
  return (
    <Choice
      label={`The bands’ ${end} leans`}
      value={lean}
      choices={[
        ['none', 'Not at all'],
        ['back', `To the ${back}`],
        ['forth', `To the ${forth}`],
      ]}
      onChange={(next) => void change('how the bands lean', { lean: next })}
    />
  );
};

const Run = () => {
  const [{ run }, change] = useCounts();
  const { forth, down, up } = useSides();
  return (
    <Choice
      label={`Head goes ${forth}: the bands go`}
      value={run}
      choices={[
        ['with', 'The same way'],
        ['against', 'The other way'],
        ['forth', `Along the ribs, ${down}`],
        ['back', `Along the ribs, ${up}`],
      ]}
      onChange={(next) => void change('the way the bands run', { run: next })}
    />
  );
};

const Order = () => {
  const [{ order }, change] = useCounts();
  return (
    <Choice
      label="Order of the frames"
      value={order}
      choices={[
        ['right', 'As it should be'],
        ['backwards', 'Depth inside out, or action backwards'],
      ]}
      onChange={(next) => void change('order of the frames', { order: next })}
    />
  );
};

const Changes = () => {
  const [{ changes }, change] = useCounts();
  return (
    <Choice
      label="As the head moves"
      value={changes}
      choices={[
        ['across', 'The picture changes'],
        ['never', 'Nothing changes'],
      ]}
      onChange={(next) => void change('what changes', { changes: next })}
    />
  );
};

const JumpTo = ({ field }: { readonly field: 'jumpForthMm' | 'jumpBackMm' }) => {
  const { forth, back } = useSides();
  const way = field === 'jumpForthMm' ? forth : back;
  return (
    <NumberOf
      field={field}
      label={`Head ${way} to the jump`}
      hint="From straight ahead, until the middle of the print jumps between its last frame and its first."
    />
  );
};

const Bands = ({ field }: { readonly field: 'bandsAcross' | 'bandsAlong' }) => {
  const sides = useSides();
  const labels = useBandLabels();
  const [label, kind, way] =
    field === 'bandsAcross'
      ? [labels.across, sides.bandsAcross, sides.across]
      : [labels.along, sides.bandsAlong, sides.along];
  return (
    <NumberOf
      field={field}
      label={label}
      hint={`The ${kind} bands: one is one run through all views. To a quarter, ${way}.`}
      bands
    />
  );
};

const fieldOf: Readonly<Record<Asked, ReactNode>> = {
  bandsAcross: <Bands field="bandsAcross" />,
  bandsAlong: <Bands field="bandsAlong" />,
  lean: <Lean />,
  run: <Run />,
  jumpForthMm: <JumpTo field="jumpForthMm" />,
  jumpBackMm: <JumpTo field="jumpBackMm" />,
  repeatMm: (
    <NumberOf field="repeatMm" label="Head from jump to jump" hint="Of the print’s middle." />
  ),
  jumpTakesMm: (
    <NumberOf
      field="jumpTakesMm"
      label="Head while it jumps"
      hint="As long as the first frame and the last are seen at once."
    />
  ),
  barAcross: <BarFields field="barAcross" way="across the ribs" />,
  barAlong: <BarFields field="barAlong" way="along the ribs" />,
  order: <Order />,
  changes: <Changes />,
  patch: <PatchChoice />,
  stripes: <StripeFields />,
  standingStripes: <YesNo field="standingStripes" label="Fine stripes that keep their place" />,
  hardEdges: <YesNo field="hardEdges" label="Bright or dark lines beside edges" />,
  doubledByDepth: <YesNo field="doubledByDepth" label="Far and near doubled, middle sharp" />,
  clearBetween: <YesNo field="clearBetween" label="Single frames clear between the changes" />,
};

/** In the order in which they are asked. */
export const CountFields = ({ asked }: { readonly asked: ReadonlySet<Asked> }) => (
  <Fields least={13}>
    {[...asked].map((name) => (
      <Fragment key={name}>{fieldOf[name]}</Fragment>
    ))}
  </Fields>
);
