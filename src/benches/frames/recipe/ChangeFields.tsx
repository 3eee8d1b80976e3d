/** The two sets of a change, and where and how slowly the one crosses into the other. */
import { nameInText } from '../../../core/names/shown.ts';
import type { Change } from '../../../job/edits/recipe.ts';
import { editChange, putInSet, splitInHalves } from '../../../job/edits/recipe.ts';
import { sequenceOf } from '../../../job/facts/sheet.ts';
import type { Frame, Job } from '../../../job/schema/job.ts';
import { Button, Slider } from '../../../ui/index.ts';
import { useChange, useStudio } from '../../studio.ts';
import { Thumbnail } from '../Thumbnail.tsx';
import styles from './recipe.module.css';

const percent = (share: number) => `${Math.round(100 * share)} %`;

interface MemberProps {
  readonly frame: Frame;
  readonly number: number;
  readonly inSecond: boolean;
}

/** A press puts the frame into the other set. */
const Member = ({ frame, number, inSecond }: MemberProps) => {
  const { change, announce } = useStudio();
  const put = (second: boolean) => {
    const set = second ? 'second' : 'first';
    change('sets', (job) => putInSet(job, frame.id, set));
    announce(`${nameInText(frame.name)} is in the ${set} set.`);
  };
  return (
    <label className={styles['member']}>
      <input
        type="checkbox"
        className="over-all"
        checked={inSecond}
        aria-label={`${number}, ${nameInText(frame.name)}, in the second set`}
        onChange={(event) => put(event.target.checked)}
      />
      <span className={styles['set']}>
        {number} · {inSecond ? '2nd' : '1st'}
      </span>
      <Thumbnail frame={frame} />
    </label>
  );
};

interface Props {
  readonly job: Job;
  readonly recipe: Change;
}

export const ChangeFields = ({ job, recipe }: Props) => {
  const change = useChange();
  const second = new Set(recipe.second);
  const frames = sequenceOf(job);
  const inSecond = frames.filter(({ id }) => second.has(id)).length;
  const set = (edit: Partial<Pick<Change, 'crossAt' | 'crossWidth'>>, key: string) =>
    void change('crossing', (now) => editChange(now, edit), `recipe.${key}`);
  return (
    <>
      <div className={styles['setsHead']}>
        <p>
          First set {frames.length - inSecond}, second set {inSecond} frames, each in order from the
          leftmost camera. Press a frame to put it into the other set.
        </p>
        <Button off={frames.length < 2} onClick={() => void change('sets', splitInHalves)}>
          Split in the middle
        </Button>
      </div>
      <div role="group" aria-label="Frames of the second set" className={styles['members']}>
        {frames.map((frame) => (
          <Member
            key={frame.id}
            frame={frame}
            number={job.frames.indexOf(frame) + 1}
            inSecond={second.has(frame.id)}
          />
        ))}
      </div>
      <div className={styles['fields']}>
        <Slider
          label="Middle of the crossing"
          min={0}
          max={1}
          step={0.01}
          value={recipe.crossAt}
          valueText={`${percent(recipe.crossAt)} of the zone`}
          onChange={(crossAt) => set({ crossAt }, 'crossAt')}
        />
        <Slider
          label="Width of the crossing"
          min={0}
          max={1}
          step={0.01}
          value={recipe.crossWidth}
          valueText={
            recipe.crossWidth === 0 ? 'at once' : `${percent(recipe.crossWidth)} of the zone`
          }
          onChange={(crossWidth) => set({ crossWidth }, 'crossWidth')}
        />
      </div>
    </>
  );
};
