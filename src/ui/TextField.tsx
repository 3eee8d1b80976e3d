import type { KeyboardEvent } from 'react';
import { useId, useState } from 'react';
import styles from './FieldBox.module.css';
import own from './TextField.module.css';

interface Props {
  readonly label: string;
  /** For a field whose place says what it is: the label is only heard. */
  readonly labelUnseen?: boolean;
  readonly value: string;
  readonly maxLength?: number;
  onCommit(value: string): void;
}

/** One line of words. Enter or leaving the field commits, Escape restores. */
export const TextField = ({ label, labelUnseen = false, value, maxLength, onCommit }: Props) => {
  const id = useId();
  const [draft, setDraft] = useState<string>();
  const commit = () => {
    if (draft !== undefined && draft.trim() !== value) onCommit(draft.trim());
    setDraft(undefined);
  };
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key === 'Enter') commit();
    else if (event.key === 'Escape') setDraft(undefined);
  };
  return (
    <div className={styles['field']}>
      <label htmlFor={id} className={labelUnseen ? 'unseen' : styles['label']}>
        {label}
      </label>
      <input
        id={id}
        type="text"
        dir="auto"
        autoComplete="off"
        className={own['words']}
        value={draft ?? value}
        data-draft={draft === undefined ? undefined : ''}
        maxLength={maxLength}
        onChange={(event) => setDraft(event.target.value)}
        onBlur={commit}
        onKeyDown={onKeyDown}
      />
    </div>
  );
};
