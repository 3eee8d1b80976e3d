/** Fields of an entry that may stay empty: words, and measures that are not known. */
import type { KeyboardEvent } from 'react';
import { useEffect, useId, useRef, useState } from 'react';
import type { Measure } from '../../../core/units/measure.ts';
import styles from './shelves.module.css';

interface EntryFieldProps {
  /** Accessible name, exactly. */
  readonly label: string;
  /** As text; '' while nothing is known. */
  readonly value: string;
  readonly unit?: string;
  readonly hint?: string | undefined;
  /** Several lines: Enter is then a new line, and leaving the field commits. */
  readonly multiline?: boolean;
  readonly takesFocus?: boolean;
  /** Return a sentence to refuse: the text stays with it, and the shelf keeps what it had. */
  onCommit(text: string): string | undefined;
}

interface Draft {
  readonly text: string;
  readonly error?: string;
}

export const EntryField = (props: EntryFieldProps) => {
  const { label, value, unit = '', hint, multiline = false, takesFocus = false, onCommit } = props;
  const id = useId();
  const [draft, setDraft] = useState<Draft>();
  const [settled, setSettled] = useState(value);
  const field = useRef<HTMLInputElement & HTMLTextAreaElement>(null);
  useEffect(() => {
    if (takesFocus) field.current?.select();
  }, [takesFocus]);
  // The shelf changed under a draft: the draft is out of date.
  if (settled !== value) {
    setSettled(value);
    setDraft(undefined);
  }
  const commit = () => {
    if (draft === undefined) return;
    const text = draft.text.trim();
    const error = text === value ? undefined : onCommit(text);
    setDraft(error === undefined ? undefined : { text: draft.text, error });
  };
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key === 'Enter' && !multiline) commit();
    else if (event.key === 'Escape') setDraft(undefined);
    else return;
    event.preventDefault();
  };
  const shared = {
    id,
    ref: field,
    value: draft?.text ?? value,
    'data-draft': draft === undefined ? undefined : '',
    'aria-invalid': draft?.error === undefined ? undefined : true,
    'aria-describedby': `${id}-unit ${id}-note`,
    onChange: (event: { target: { value: string } }) => setDraft({ text: event.target.value }),
    onBlur: commit,
    onKeyDown,
  };
  return (
    <div className={multiline ? `${styles['blank']} ${styles['wide']}` : styles['blank']}>
      <label htmlFor={id}>{label}</label>
      <div className={styles['blankBox']}>
        {multiline ? (
          <textarea rows={2} {...shared} />
        ) : (
          <input type="text" autoComplete="off" spellCheck={false} {...shared} />
        )}
        <span id={`${id}-unit`}>{unit}</span>
      </div>
      <p
        id={`${id}-note`}
        className={draft?.error === undefined ? styles['soft'] : styles['error']}
        aria-live="polite"
      >
        {draft?.error ?? hint ?? ''}
      </p>
    </div>
  );
};

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
  <EntryField
    label={label}
    value={value === undefined ? '' : measure.format(value)}
    unit={measure.unit}
    hint={hint}
    onCommit={(text) => {
      if (text === '') return onCommit(undefined);
      const read = measure.read(text);
      return read.ok ? onCommit(read.value) : read.message;
    }}
  />
);
