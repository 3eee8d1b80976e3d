/** A still title over whatever the slots show, at a depth of its own. */
import { Suspense, useState } from 'react';
import { nameInText } from '../../../core/names/shown.ts';
import { rangeWithin } from '../../../core/plan/depth.ts';
import { sayLength, sayLengthTo, trimmed } from '../../../core/units/format.ts';
import type { LengthUnit } from '../../../core/units/parse.ts';
import { depthSettingOf } from '../../../job/facts/plan.ts';
import { titleFrameOf } from '../../../job/facts/sheet.ts';
import { setTitle, titleTravel } from '../../../job/facts/title.ts';
import type { Job } from '../../../job/schema/job.ts';
import { Button, Prose, SelectField, Slider, Stack } from '../../../ui/index.ts';
import { frameChoices } from '../../../job/words/frames.ts';
import { latePart } from '../../desk/late-part.tsx';
import { useStudio, useUnits } from '../../studio.ts';
import styles from '../recipe/recipe.module.css';

const TypedTitle = latePart(() => import('./TypedTitle.tsx'));

/** How far from the print it seems, with true depth: relation 6 solved for z. */
const sayDepth = (job: Job, step: number, units: LengthUnit): string => {
  if (step === 0) return 'on the print';
  const range = rangeWithin({ ...depthSettingOf(job), gain: 1 }, Math.abs(step));
  const z = step > 0 ? range.behindMm : -range.frontMm;
  const far = Number.isFinite(z)
    ? z < 10
      ? sayLength(z, units)
      : sayLengthTo(z, units, 0)
    : 'without end';
  return `${far} ${step > 0 ? 'behind' : 'in front'}, ${trimmed(Math.abs(step), 2)} ribs per view`;
};

const sayTravel = (job: Job, isTyped: boolean): string => {
  const travel = titleTravel(job);
  if (travel === 0) return '';
  const slides = `It slides ${trimmed(travel, 1)} ribs to either side`;
  return isTyped
    ? `${slides} and keeps its size.`
    : `${slides} and is made smaller by that, so that it never leaves the print.`;
};

/** Where it stands, and what that does to it. */
const Depth = ({ job }: { readonly job: Job }) => {
  const { change } = useStudio();
  const units = useUnits();
  const frame = titleFrameOf(job);
  const step = job.title?.step ?? 0;
  if (frame === undefined) return null;
  return (
    <>
      <Slider
        label="Title stands"
        min={-2}
        max={2}
        step={0.05}
        value={step}
        valueText={sayDepth(job, step, units)}
        ticks={[-1, 0, 1]}
        onChange={(next) =>
          void change(
            'title',
            (now) => setTitle(now, { frame: frame.id, step: next }),
            'title.step',
          )
        }
      />
      <p className={styles['note']}>
        What is transparent in it shows the slots beneath.{' '}
        {sayTravel(job, frame.typed !== undefined)}
      </p>
    </>
  );
};

export const TitleFields = ({ job }: { readonly job: Job }) => {
  const { change, announce } = useStudio();
  const [typing, setTyping] = useState(false);
  const frame = titleFrameOf(job);
  const isTyped = frame?.typed !== undefined;
  const choose = (id: string) => {
    setTyping(false);
    const step = job.title?.step ?? 0;
    change('title', (now) => setTitle(now, id === '' ? undefined : { frame: id, step }));
    const name = job.frames.find((one) => one.id === id)?.name;
    announce(name === undefined ? 'No title.' : `${nameInText(name)} lies over all slots.`);
  };
  return (
    <Stack gap={4}>
      <div className={styles['fields']}>
        <SelectField
          label="Title over it"
          value={frame?.id ?? ''}
          choices={[
            { value: '', label: 'None' },
            ...(job.frames.length < 2 ? [] : frameChoices(job)),
          ]}
          onChange={choose}
        />
        {frame === undefined && !typing && (
          <div className={styles['act']}>
            <Button onClick={() => setTyping(true)}>Type a title</Button>
          </div>
        )}
        <Depth job={job} />
      </div>
      {(isTyped || (typing && frame === undefined)) && (
        <Suspense fallback={<Prose>Loading …</Prose>}>
          <TypedTitle job={job} onEnd={() => choose('')} />
        </Suspense>
      )}
    </Stack>
  );
};
