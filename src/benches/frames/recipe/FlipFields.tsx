/** The pictures of a flip, and what stands between them. */
import { useMemo } from 'react';
import type { Guard } from '../../../core/frames/recipes.ts';
import { mostGuardSlots } from '../../../core/frames/flip-ahead.ts';
import { MOST_PICTURES } from '../../../core/frames/recipes.ts';
import { nameInText } from '../../../core/names/shown.ts';
import { plainMeasure } from '../../../core/units/measure.ts';
import type { Flip } from '../../../job/edits/recipe.ts';
import {
  choosePicture,
  editFlip,
  guardAdviceOf,
  layoutOf,
  setPictureCount,
} from '../../../job/edits/recipe.ts';
import { sequenceOf } from '../../../job/facts/sheet.ts';
import type { Job } from '../../../job/schema/job.ts';
import { ChoiceField, Fields, MeasureField, SelectField } from '../../../ui/index.ts';
import { frameChoices } from '../../../job/words/frames.ts';
import { useChange, useStudio } from '../../studio.ts';
import { Thumbnail } from '../Thumbnail.tsx';
import { useFrameDrop } from '../use-frame-drop.ts';
import styles from './recipe.module.css';
import { StraightAhead } from './StraightAhead.tsx';

const counts = Array.from({ length: MOST_PICTURES - 1 }, (_, i) => `${i + 2}`).map((value) => ({
  value,
  label: value,
}));

const guards: readonly { readonly value: Guard; readonly label: string }[] = [
  { value: 'mean', label: 'Mean of both' },
  { value: 'grey', label: 'Grey' },
  { value: 'white', label: 'White' },
  { value: 'black', label: 'Black' },
];

const wholeSlots = plainMeasure(1, 0, 'slots');

interface WellProps {
  readonly job: Job;
  readonly place: number;
  readonly chosen: string;
}

/** Where one picture of the flip goes: dropped here, or chosen from the list. */
const PictureWell = ({ job, place, chosen }: WellProps) => {
  const { change, announce } = useStudio();
  const frames = sequenceOf(job);
  const frame = frames.find(({ id }) => id === chosen);
  const choose = (id: string) => {
    change(`picture ${place + 1} of the flip`, (now) => choosePicture(now, place, id));
    const name = frames.find((one) => one.id === id)?.name;
    const shown = name === undefined ? 'not chosen' : nameInText(name);
    announce(`Picture ${place + 1} is ${shown}.`);
  };
  const { over, handlers } = useFrameDrop(choose);
  return (
    <div
      {...handlers}
      role="group"
      aria-label={`Picture ${place + 1} of the flip`}
      tabIndex={-1}
      className={styles['well']}
      data-drop={over || undefined}
    >
      <div className={styles['picture']}>
        {frame === undefined ? (
          <span className={styles['empty']}>Drop a frame here</span>
        ) : (
          <Thumbnail frame={frame} />
        )}
      </div>
      <SelectField
        label={`Picture ${place + 1}`}
        value={frame?.id ?? ''}
        choices={[
          ...(frame === undefined ? [{ value: '', label: 'Choose a frame' }] : []),
          ...frameChoices(job, frames),
        ]}
        onChange={choose}
      />
    </div>
  );
};

const sayAdvice = (advised: number | undefined, most: number): string => {
  if (advised === undefined) return `Room for ${most}.`;
  return advised <= most
    ? `This lens and printer want ${advised}; there is room for ${most}.`
    : `This lens and printer want ${advised}, but there is room for ${most} only.`;
};

export const FlipFields = ({ job, flip }: { readonly job: Job; readonly flip: Flip }) => {
  const change = useChange();
  const { lens, printer, print, columns, viewSlots, ribs } = job;
  // A few milliseconds' work, and none of it depends on the frames.
  const advised = useMemo(
    () => guardAdviceOf(job),
    // eslint-disable-next-line react-hooks/exhaustive-deps
    [lens, printer, print, columns, viewSlots, ribs],
  );
  const most = mostGuardSlots(layoutOf(flip, viewSlots));
  return (
    <>
      <div className={styles['fields']}>
        <ChoiceField
          label="Pictures"
          choices={counts}
          value={`${flip.pictures.length}`}
          onChange={(count) =>
            void change('pictures of the flip', (now) => setPictureCount(now, Number(count)))
          }
        />
        <ChoiceField<Guard>
          label="Guard between them"
          choices={guards}
          value={flip.guard}
          onChange={(guard) => void change('guard', (now) => editFlip(now, { guard }))}
        />
        <MeasureField
          label="Guard slots"
          value={flip.guardSlots}
          measure={wholeSlots}
          hint={sayAdvice(advised, most)}
          onCommit={(guardSlots, _, how) =>
            change(
              'guard slots',
              (now) => editFlip(now, { guardSlots }),
              how === 'stepped' ? 'recipe.guardSlots' : undefined,
            )
          }
        />
      </div>
      <StraightAhead job={job} pictures={flip.pictures.length} />
      <Fields least={14} gap={3}>
        {flip.pictures.map((id, place) => (
          <PictureWell key={place} job={job} place={place} chosen={id} />
        ))}
      </Fields>
    </>
  );
};
