/** The job sheet: everything the chain needs to know of one print, always in view. */
import { useId, useState } from 'react';
import type { Units } from '../../state/view.ts';
import { ChoiceField, ScrollBox, TextField } from '../../ui/index.ts';
import { useChange, useJob, useJobKey, useUnits, useView } from '../studio.ts';
import styles from './Docket.module.css';
import { GuessedLine } from './GuessedLine.tsx';
import { DocketFigures } from './DocketFigures.tsx';
import { JobFileButtons } from './job-file/JobFileButtons.tsx';
import { SavedMark } from './job-file/SavedMark.tsx';
import { JobsButton } from './job-list/JobsHost.tsx';
import { LensFields } from './LensFields.tsx';
import { PrintFields } from './PrintFields.tsx';
import { PrinterFields } from './PrinterFields.tsx';

const unitChoices: readonly { value: Units; label: string }[] = [
  { value: 'mm', label: 'mm' },
  { value: 'in', label: 'in' },
];

export const Docket = () => {
  const id = useId();
  const change = useChange();
  const job = useJob();
  const jobKey = useJobKey();
  const units = useUnits();
  const set = useView((view) => view.set);
  const [open, setOpen] = useState(false);
  const rename = (name: string) =>
    change('job name', (now) => ({ ...now, name: name === '' ? 'Untitled print' : name }));
  return (
    <aside
      className={styles['docket']}
      aria-labelledby={`${id}-title`}
      data-folded={!open || undefined}
    >
      <header className={styles['head']}>
        <h2 id={`${id}-title`}>Job sheet</h2>
        <SavedMark />
        <ChoiceField
          compact
          label="Units"
          choices={unitChoices}
          value={units}
          onChange={(value) => set({ units: value })}
        />
      </header>
      <div className={styles['job']}>
        <TextField
          label="Job name"
          labelUnseen
          value={job.name}
          maxLength={200}
          onCommit={rename}
        />
        <button
          type="button"
          className={styles['fold']}
          aria-expanded={open}
          aria-controls={`${id}-body`}
          onClick={() => setOpen(!open)}
        >
          {open ? 'Fold up' : 'Unfold'}
        </button>
        {job.demo !== undefined && (
          <p className={styles['demo']}>Demo, to look at: a change makes a copy of your own.</p>
        )}
        <JobsButton />
        <div className={styles['file']}>
          <JobFileButtons />
        </div>
      </div>
      <ScrollBox key={jobKey} id={`${id}-body`} className={styles['body']}>
        <GuessedLine />
        <LensFields />
        <PrinterFields />
        <PrintFields />
        <DocketFigures />
      </ScrollBox>
    </aside>
  );
};
