/** The note of an entry. */
import type { KeyboardEvent } from 'react';
import { useId, useState } from 'react';
import styles from './shelves.module.css';

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
