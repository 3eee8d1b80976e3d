/** The job sheet: everything the chain needs to know of one print, always in view. */
import { useId, useState } from 'react';
import { useJob, useJobKey, useView } from '../../state/hooks.ts';
import type { Units } from '../../state/view.ts';
import { documentStore } from '../../state/document.ts';
import { ChoiceField, TextField } from '../../ui/index.ts';
import { CarryButtons, UnsavedMark } from './carry/index.tsx';
import styles from './Docket.module.css';
import { DocketFigures } from './DocketFigures.tsx';
import { JobsButton } from './jobs/JobsHost.tsx';
import { LensFields } from './LensFields.tsx';
import { PrintFields } from './PrintFields.tsx';
import { PrinterFields } from './PrinterFields.tsx';

const unitChoices: readonly { value: Units; label: string }[] = [
  { value: 'mm', label: 'mm' },
  { value: 'in', label: 'in' },
];

const renameJob = (name: string) =>
  documentStore
    .getState()
    .change('job name', (job) => ({ ...job, name: name === '' ? 'Untitled print' : name }));

export const Docket = () => {
  const id = useId();
  const job = useJob();
  const jobKey = useJobKey();
  const units = useView((view) => view.units);
  const set = useView((view) => view.set);
  const [open, setOpen] = useState(false);
  return (
    <aside className={styles['docket']} aria-labelledby={`${id}-title`}>
      <header className={styles['head']}>
        <h2 id={`${id}-title`}>Job sheet</h2>
        <UnsavedMark />
        <ChoiceField
          compact
          label="Units"
          choices={unitChoices}
          value={units}
          onChange={(value) => set({ units: value })}
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
      </header>
      <div className={styles['job']}>
        <TextField
          label="Job name"
          labelUnseen
          value={job.name}
          maxLength={200}
          onCommit={renameJob}
        />
        <JobsButton />
        <CarryButtons />
      </div>
      <div
        key={jobKey}
        id={`${id}-body`}
        className={open ? styles['body'] : `${styles['body']} ${styles['folded']}`}
      >
        <LensFields />
        <PrinterFields />
        <PrintFields />
        <DocketFigures />
      </div>
    </aside>
  );
};
