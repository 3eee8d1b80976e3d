/** Fields of an entry beside the measures: what may be unknown, and the note. */
import type { KeyboardEvent } from 'react';
import { useId, useState } from 'react';
import type { Measure } from '../../../core/units/measure.ts';
import { BlankField } from '../../../ui/index.ts';
import styles from './shelves.module.css';

interface BlankMeasureProps {
  readonly label: string;
  readonly value: number | undefined;
  readonly measure: Measure;
  readonly hint?: string;
  /** Undefined: not known any more. */
  onCommit(value: number | undefined): string | undefined;
}

/** A measure that may be unknown. It has no likely value: empty is empty. */
export const BlankMeasure = ({ label, value, measure, hint, onCommit }: BlankMeasureProps) => (
  <BlankField
    label={label}
    value={value === undefined ? '' : measure.format(value)}
    unit={measure.unit}
    {...(hint === undefined ? {} : { hint })}
    onCommit={(text) => {
      if (text === '') return onCommit(undefined);
      const read = measure.read(text);
      return read.ok ? onCommit(read.value) : read.message;
    }}
  />
);

interface NoteProps {
  readonly value: string;
  onCommit(text: string): string | undefined;
}

/** Several lines: leaving the field commits, Escape restores. */
export const NoteField = ({ value, onCommit }: NoteProps) => {
  const id = useId();
  const [draft, setDraft] = useState<{ readonly text: string; readonly error?: string }>();
  const commit = () => {
    if (draft === undefined) return;
    const error = onCommit(draft.text.trim());
    setDraft(error === undefined ? undefined : { text: draft.text, error });
  };
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key === 'Escape') setDraft(undefined);
  };
  return (
    <div className={styles['note']}>
      <label htmlFor={id}>Note</label>
      <textarea
        id={id}
        rows={2}
        value={draft?.text ?? value}
        aria-invalid={draft?.error === undefined ? undefined : true}
        aria-describedby={`${id}-error`}
        onChange={(event) => setDraft({ text: event.target.value })}
        onBlur={commit}
        onKeyDown={onKeyDown}
      />
      <p id={`${id}-error`} className={styles['error']} aria-live="polite">
        {draft?.error}
      </p>
    </div>
  );
};
