/** A title that is typed here: its letters, how they look, and where they stand. */
import { useId, useState } from 'react';
import { sayLength } from '../../../core/units/format.ts';
import { lengthMeasure } from '../../../core/units/measure.ts';
import { moveTyped } from '../../../job/edits/typed.ts';
import { smallestCapMm } from '../../../job/facts/title.ts';
import { titleFindings } from '../../../job/findings/title.ts';
import type { Job } from '../../../job/schema/job.ts';
import { MOST_LETTERS } from '../../../job/schema/typed.ts';
import { faceNames, genericFaces, ownFaces, weightNames } from '../../../job/words/faces.ts';
import {
  Button,
  Fields,
  MeasureField,
  Notice,
  Row,
  SelectField,
  Stack,
  TextField,
} from '../../../ui/index.ts';
import { useChange, useUnits } from '../../studio.ts';
import { ColourField } from './ColourField.tsx';
import styles from './title.module.css';
import { TitleStage } from './TitleStage.tsx';
import { useTyped } from './use-typed.ts';

type Typing = ReturnType<typeof useTyped>;

const Words = ({ wish, set }: Pick<Typing, 'wish' | 'set'>) => {
  const id = useId();
  return (
    <div className={styles['words']}>
      <label htmlFor={id}>Words of the title</label>
      <textarea
        id={id}
        rows={2}
        dir="auto"
        maxLength={MOST_LETTERS}
        value={wish.text}
        // Whoever pressed “Type a title” types next.
        autoFocus={wish.text === ''}
        onChange={(event) => set({ text: event.target.value })}
      />
    </div>
  );
};

const OTHER = ':other';
const known: readonly string[] = [...ownFaces, ...genericFaces];

const Face = ({ wish, set }: Pick<Typing, 'wish' | 'set'>) => {
  const [other, setOther] = useState(!known.includes(wish.face));
  const choose = (face: string) => {
    setOther(face === OTHER);
    if (face !== OTHER) set({ face });
  };
  return (
    <>
      <SelectField
        label="Typeface"
        value={other ? OTHER : wish.face}
        choices={[
          ...known.map((face) => ({ value: face, label: faceNames[face] ?? face })),
          { value: OTHER, label: 'Another on this device' },
        ]}
        onChange={choose}
      />
      {other && (
        <TextField
          label="Name of the typeface"
          value={known.includes(wish.face) ? '' : wish.face}
          maxLength={100}
          onCommit={(face) => {
            if (face !== '') set({ face });
          }}
        />
      )}
      <SelectField
        label="Weight"
        value={String(wish.weight)}
        choices={weightNames.map(([weight, name]) => ({ value: String(weight), label: name }))}
        onChange={(weight) => set({ weight: Number(weight) })}
      />
    </>
  );
};

const within = (what: string, value: number, least: number, most: number): string | undefined =>
  value >= least && value <= most ? undefined : `${what} must be within ${least} and ${most} mm.`;

const Look = ({ job, wish, set }: Pick<Typing, 'wish' | 'set'> & { readonly job: Job }) => {
  const units = useUnits();
  const length = lengthMeasure(units, 0.5, 0.03125);
  const commit = (what: string, value: number, range: readonly [number, number], key: string) => {
    const refused = within(what, value, ...range);
    if (refused === undefined) set({ [key]: value });
    return refused;
  };
  return (
    <Fields least={9}>
      <Face wish={wish} set={set} />
      <MeasureField
        label="Letter height"
        value={wish.capMm}
        measure={length}
        hint={`Of a capital. This lens shows ${sayLength(smallestCapMm(job), units)} and up.`}
        onCommit={(to) => commit('Letter height', to, [0.5, 2000], 'capMm')}
      />
      <ColourField
        label="Letter colour"
        value={wish.colour}
        onChange={(colour) => set({ colour })}
      />
      <MeasureField
        label="Outline width"
        value={wish.outlineMm}
        measure={length}
        hint={wish.outlineMm === 0 ? 'None.' : 'Outside the letters.'}
        onCommit={(to) => commit('Outline width', to, [0, 200], 'outlineMm')}
      />
      {wish.outlineMm > 0 && (
        <ColourField
          label="Outline colour"
          value={wish.outlineColour}
          onChange={(outlineColour) => set({ outlineColour })}
        />
      )}
      {wish.text.includes('\n') && (
        <SelectField
          label="Lines"
          value={wish.align}
          choices={[
            { value: 'left', label: 'Left' },
            { value: 'middle', label: 'Middle' },
            { value: 'right', label: 'Right' },
          ]}
          onChange={(align) => set({ align })}
        />
      )}
    </Fields>
  );
};

const Where = ({ frame }: { readonly frame: NonNullable<Typing['frame']> }) => {
  const change = useChange();
  const units = useUnits();
  const length = lengthMeasure(units, 0.5, 0.03125);
  const { rightMm = 0, downMm = 0 } = frame.typed ?? {};
  return (
    <Fields least={9}>
      <MeasureField
        label="Title to the right"
        value={rightMm}
        measure={length}
        hint="From the middle of the print."
        onCommit={(to) => change(...moveTyped(frame, { rightMm: to }, 'right'))}
      />
      <MeasureField
        label="Title down"
        value={downMm}
        measure={length}
        onCommit={(to) => change(...moveTyped(frame, { downMm: to }, 'down'))}
      />
    </Fields>
  );
};

interface Props {
  readonly job: Job;
  /** The title is taken away. */
  onEnd(): void;
}

const TypedTitle = ({ job, onEnd }: Props) => {
  const { frame, wish, set, fault } = useTyped(job);
  const told = titleFindings(job).filter(({ toldOn }) => toldOn === 'frames');
  return (
    <Stack gap={4} className={styles['editor']}>
      <Words wish={wish} set={set} />
      {fault !== undefined && (
        <Notice kind="problem" title="The title was not drawn" announce>
          {fault}
        </Notice>
      )}
      {frame?.typed !== undefined && (
        <Row gap={5} align="start">
          <div className={styles['drawing']}>
            <TitleStage job={job} frame={frame} typed={frame.typed} />
          </div>
          <Stack gap={4} className={styles['controls']}>
            <Look job={job} wish={wish} set={set} />
            <Where frame={frame} />
            {told.map(({ id, severity, title, figure, remedy }) => (
              <Notice key={id} kind={severity === 'note' ? 'info' : 'caution'} title={title}>
                {figure}. {remedy}
              </Notice>
            ))}
          </Stack>
        </Row>
      )}
      <Row>
        <Button onClick={onEnd}>Remove the title</Button>
      </Row>
    </Stack>
  );
};

export default TypedTitle;
