import { useId } from 'react';
import { isTicked, setTick } from '../../../job/edits/mount-ticks.ts';
import type { MountStep } from '../../../job/facts/mount/step.ts';
import { cautionWords } from '../../../job/words/cautions.ts';
import { buttonClass, NoticeMark, Stack } from '../../../ui/index.ts';
import { useChange, useJob } from '../../studio.ts';
import styles from './checklist.module.css';

export const StepItem = ({ step }: { readonly step: MountStep }) => {
  const change = useChange();
  const { id, title, text, why, cautions, isWarning } = step;
  const isDone = isTicked(useJob(), id);
  const name = useId();
  return (
    <li className={`${styles['step']} ${isDone ? styles['done'] : ''}`}>
      <input
        type="checkbox"
        id={name}
        className={styles['box']}
        checked={isDone}
        aria-labelledby={`${name}-title`}
        aria-describedby={`${name}-text`}
        onChange={({ target }) =>
          void change('checklist', (job) => setTick(job, id, target.checked))
        }
      />
      <Stack gap={2} className={styles['words']}>
        <label htmlFor={name} className={styles['what']}>
          <span id={`${name}-title`} className={styles['title']}>
            {isWarning && <NoticeMark kind="caution" />}
            {title}
          </span>{' '}
          <span id={`${name}-text`}>{text}</span>
        </label>
        <p className={styles['why']}>{why}</p>
        {isWarning && (
          <p>
            <a className={buttonClass()} href="#/calibrate">
              Go to Calibrate
            </a>
          </p>
        )}
        {cautions.map((kind) => (
          <p key={kind} className={styles['caution']}>
            <NoticeMark kind="caution" />
            <span>
              <strong>{cautionWords[kind].of}.</strong> {cautionWords[kind].say}
            </span>
          </p>
        ))}
      </Stack>
    </li>
  );
};
