/** The note of an entry. */
import { useId } from 'react';
import { useDraft } from '../../ui/index.ts';
import styles from './shelves.module.css';

interface NoteProps {
  readonly value: string;
  onCommit(text: string): string | undefined;
}

/** Several lines: leaving the field commits, Escape restores. */
export const NoteField = ({ value, onCommit }: NoteProps) => {
  const id = useId();
  const { field } = useDraft(value, onCommit);
  return (
    <div className={styles['note']}>
      <label htmlFor={id}>Note</label>
      <textarea
        id={id}
        rows={2}
        value={field.text}
        aria-invalid={field.error === undefined ? undefined : true}
        aria-describedby={`${id}-error`}
        onChange={(event) => field.onText(event.target.value)}
        onBlur={field.onLeave}
        onKeyDown={(event) => {
          if (event.key === 'Escape') field.onKeyDown(event);
        }}
      />
      <p id={`${id}-error`} className={styles['error']} aria-live="polite">
        {field.error}
      </p>
    </div>
  );
};
