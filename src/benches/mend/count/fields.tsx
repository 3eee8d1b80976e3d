/** One field, or a few that belong together, for each thing that may be asked of the print. */
import type { ReactNode } from 'react';
import type { Asked } from '../../../core/mend/symptoms.ts';
import { lengthMeasure, plainMeasure } from '../../../core/units/measure.ts';
import { seeingOf } from '../../../job/facts/mend.ts';
import type { SeenCounts } from '../../../job/schema/trial.ts';
import { useJob, useView } from '../../../state/hooks.ts';
import { BlankMeasure, SelectField } from '../../../ui/index.ts';
import { changeCounts } from '../../../job/edits/seen.ts';
import { sidesOf } from '../../../job/facts/sides.ts';
import styles from '../mend.module.css';

const bandsMeasure = plainMeasure(0.25, 2);

const useCounts = (): SeenCounts => seeingOf(useJob()).counts;
const useSides = () => sidesOf(seeingOf(useJob()).printed);
const useLength = () => lengthMeasure(useView((view) => view.units));

type NumberField =
  'bandsAcross' | 'bandsAlong' | 'jumpForthMm' | 'jumpBackMm' | 'repeatMm' | 'jumpTakesMm';

const NumberOf = (props: { field: NumberField; label: string; hint: string; bands?: boolean }) => {
  const value = useCounts()[props.field];
  const length = useLength();
  return (
    <BlankMeasure
      label={props.label}
      value={value}
      measure={props.bands === true ? bandsMeasure : length}
      hint={props.hint}
      onCommit={(next) => changeCounts(props.label.toLowerCase(), { [props.field]: next })}
    />
  );
};

const NOT_KNOWN = '';

/** A choice that may stay open. */
const Choice = <Value extends string>(props: {
  readonly label: string;
  readonly value: Value | undefined;
  readonly choices: readonly (readonly [Value, string])[];
  readonly onChange: (value: Value | undefined) => void;
}) => (
  <SelectField
    label={props.label}
    value={props.value ?? NOT_KNOWN}
    choices={[
      { value: NOT_KNOWN, label: 'Not looked at yet' },
      ...props.choices.map(([value, label]) => ({ value, label })),
    ]}
    onChange={(value) => props.onChange(value === NOT_KNOWN ? undefined : value)}
  />
);

type YesNoField = 'standingStripes' | 'hardEdges' | 'doubledByDepth' | 'clearBetween';

const YesNo = ({ field, label }: { readonly field: YesNoField; readonly label: string }) => {
  const value = useCounts()[field];
  return (
    <Choice
      label={label}
      value={value === undefined ? undefined : value ? 'yes' : 'no'}
      choices={[
        ['yes', 'Yes'],
        ['no', 'No'],
      ]}
      onChange={(next) =>
        void changeCounts(label.toLowerCase(), {
          [field]: next === undefined ? undefined : next === 'yes',
        })
      }
    />
  );
};

const Bar = ({
  field,
  way,
}: {
  readonly field: 'barAcross' | 'barAlong';
  readonly way: string;
}) => {
  const job = useJob();
  const seeing = seeingOf(job);
  const bar = seeing.counts[field];
  const measure = useLength();
  const { widthMm, heightMm, ribs } = seeing.printed;
  // Any length will do whose size in the file is known; the print's own is always at hand.
  const own = (ribs === 'upright') === (field === 'barAcross') ? widthMm : heightMm;
  const drawnMm = bar?.drawnMm ?? own;
  return (
    <>
      <BlankMeasure
        label={`Length drawn ${way}`}
        value={drawnMm}
        measure={measure}
        hint="The bar on the page, or the print’s own size."
        onCommit={(next) =>
          bar === undefined
            ? next === own || next === undefined
              ? undefined
              : changeCounts(`length ${way}`, { [field]: { drawnMm: next, measuredMm: next } })
            : changeCounts(`length ${way}`, { [field]: { ...bar, drawnMm: next ?? own } })
        }
      />
      <BlankMeasure
        label={`Measured ${way}`}
        value={bar?.measuredMm}
        measure={measure}
        hint="By a ruler, to half a millimetre."
        onCommit={(next) =>
          changeCounts(`length ${way}`, {
            [field]: next === undefined ? undefined : { drawnMm, measuredMm: next },
          })
        }
      />
    </>
  );
};

const thirds = [-1 / 3, 0, 1 / 3] as const;
const downWords = ['top', 'middle', 'bottom'] as const;
const acrossWords = ['left', 'middle', 'right'] as const;
const PATCH_WIDTH = 0.3;

/** Nine places of the print as it is seen; turned into across and along by the ribs. */
const places = thirds.flatMap((down, row) =>
  thirds.map((right, column) => ({
    name: `${downWords[row] ?? ''} ${acrossWords[column] ?? ''}`,
    right,
    down,
  })),
);

const PatchChoice = () => {
  const { patch } = useCounts();
  const upright = seeingOf(useJob()).printed.ribs === 'upright';
  const at =
    patch === undefined || patch === 'none'
      ? undefined
      : places.find(({ right, down }) =>
          upright
            ? Math.abs(right - patch.across) < 0.17 && Math.abs(down - patch.along) < 0.17
            : Math.abs(down - patch.across) < 0.17 && Math.abs(right - patch.along) < 0.17,
        );
  return (
    <Choice
      label="One place differs"
      value={patch === 'none' ? 'none' : at?.name}
      choices={[['none', 'No place does'], ...places.map(({ name }) => [name, name] as const)]}
      onChange={(name) => {
        const place = places.find((one) => one.name === name);
        void changeCounts('the place that differs', {
          patch:
            place === undefined
              ? name === 'none'
                ? 'none'
                : undefined
              : {
                  across: upright ? place.right : place.down,
                  along: upright ? place.down : place.right,
                  width: PATCH_WIDTH,
                },
        });
      }}
    />
  );
};

const Stripes = () => {
  const { stripes } = useCounts();
  const measure = useLength();
  const seen = stripes === undefined || stripes === 'none' ? undefined : stripes;
  return (
    <>
      <Choice
        label="Stripes square to the ribs"
        value={stripes === undefined ? undefined : seen === undefined ? 'none' : 'there'}
        choices={[
          ['none', 'There are none'],
          ['there', 'Every second one is out of step'],
        ]}
        onChange={(next) =>
          void changeCounts('stripes', {
            stripes:
              next === undefined
                ? undefined
                : next === 'none'
                  ? 'none'
                  : { heightMm: 10, apartMm: 0 },
          })
        }
      />
      {seen !== undefined && (
        <>
          <BlankMeasure
            label="A stripe’s height"
            value={seen.heightMm}
            measure={measure}
            onCommit={(next) =>
              changeCounts('stripe height', { stripes: { ...seen, heightMm: next ?? 10 } })
            }
          />
          <BlankMeasure
            label="Head between two stripes’ jumps"
            value={seen.apartMm}
            measure={measure}
            hint="From where one stripe jumps to where its neighbour does."
            onCommit={(next) =>
              changeCounts('stripes', { stripes: { ...seen, apartMm: next ?? 0 } })
            }
          />
        </>
      )}
    </>
  );
};

const Lean = () => {
  const { lean } = useCounts();
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
      onChange={(next) => void changeCounts('how the bands lean', { lean: next })}
    />
  );
};

const Run = () => {
  const { run } = useCounts();
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
      onChange={(next) => void changeCounts('the way the bands run', { run: next })}
    />
  );
};

const Order = () => {
  const { order } = useCounts();
  return (
    <Choice
      label="Order of the frames"
      value={order}
      choices={[
        ['right', 'As it should be'],
        ['backwards', 'Depth inside out, or action backwards'],
      ]}
      onChange={(next) => void changeCounts('order of the frames', { order: next })}
    />
  );
};

const Changes = () => {
  const { changes } = useCounts();
  return (
    <Choice
      label="As the head moves"
      value={changes}
      choices={[
        ['across', 'The picture changes'],
        ['never', 'Nothing changes'],
      ]}
      onChange={(next) => void changeCounts('what changes', { changes: next })}
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
  return field === 'bandsAcross' ? (
    <NumberOf
      field={field}
      label="Bands across"
      hint={`Runs through all views ${sides.across}, to a quarter.`}
      bands
    />
  ) : (
    <NumberOf
      field={field}
      label="Bands along"
      hint={`The same ${sides.along}, along one rib.`}
      bands
    />
  );
};

export const fieldOf: Readonly<Record<Asked, ReactNode>> = {
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
  barAcross: <Bar field="barAcross" way="across the ribs" />,
  barAlong: <Bar field="barAlong" way="along the ribs" />,
  order: <Order />,
  changes: <Changes />,
  patch: <PatchChoice />,
  stripes: <Stripes />,
  standingStripes: <YesNo field="standingStripes" label="Fine stripes that stand still" />,
  hardEdges: <YesNo field="hardEdges" label="Bright or dark lines beside edges" />,
  doubledByDepth: <YesNo field="doubledByDepth" label="Far and near doubled, middle sharp" />,
  clearBetween: <YesNo field="clearBetween" label="Single frames clear between the changes" />,
};

export const fieldsClass = styles['fields'];
