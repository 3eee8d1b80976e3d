import { useId, useState } from 'react';
import styles from './calibrate.module.css';

interface Props {
  /** Accessible name, exactly. */
  readonly label: string;
  /** As text; '' while nothing is known. */
  readonly value: string;
  readonly unit?: string;
  readonly hint?: string;
  /** Return a sentence to refuse. '' empties the field. */
  onCommit(text: string): string | undefined;
}

/** A field that may stay empty: what was not measured has no value, not even a likely one. */
export const BlankField = ({ label, value, unit = '', hint, onCommit }: Props) => {
  const id = useId();
  const [draft, setDraft] = useState<{ text: string; error?: string }>();
  const [settled, setSettled] = useState(value);
  if (settled !== value) {
    setSettled(value);
    setDraft(undefined);
  }
  const commit = () => {
    if (draft === undefined) return;
    const error = onCommit(draft.text.trim());
    setDraft(error === undefined ? undefined : { text: draft.text, error });
  };
  const note = draft?.error ?? hint ?? '';
  return (
    <div className={styles['blank']}>
      <label htmlFor={id}>{label}</label>
      <div className={styles['blankBox']}>
        <input
          id={id}
          type="text"
          autoComplete="off"
          spellCheck={false}
          value={draft?.text ?? value}
          data-draft={draft === undefined ? undefined : ''}
          aria-invalid={draft?.error === undefined ? undefined : true}
          aria-describedby={`${id}-unit ${id}-note`}
          onChange={(event) => setDraft({ text: event.target.value })}
          onBlur={commit}
          onKeyDown={(event) => {
            if (event.key === 'Enter') commit();
            else if (event.key === 'Escape') setDraft(undefined);
            else return;
            event.preventDefault();
          }}
        />
        <span id={`${id}-unit`}>{unit}</span>
      </div>
      <p
        id={`${id}-note`}
        className={draft?.error === undefined ? styles['soft'] : styles['error']}
        aria-live="polite"
      >
        {note}
      </p>
    </div>
  );
};
