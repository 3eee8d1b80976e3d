import type { KeyboardEvent } from 'react';
import { useEffect, useId, useRef, useState } from 'react';
import styles from './FieldBox.module.css';
import own from './TextField.module.css';

interface Props {
  readonly label: string;
  /** For a field whose place says what it is: the label is only heard. */
  readonly labelUnseen?: boolean;
  readonly value: string;
  readonly maxLength?: number;
  onCommit(value: string): void;
  /** For a field that a press brought: it takes the typing at once, its text marked. */
  readonly atOnce?: boolean;
  /** Enter or Escape ended the typing. */
  onEnd?(): void;
}

/** One line of words. Enter or leaving the field commits, Escape restores. */
export const TextField = (props: Props) => {
  const { label, labelUnseen = false, value, maxLength, onCommit, atOnce = false, onEnd } = props;
  const id = useId();
  const input = useRef<HTMLInputElement>(null);
  // Whoever takes the focus away at the end makes the field be left once more, with the draft of before.
  const ended = useRef(false);
  useEffect(() => {
    if (!atOnce) return;
    input.current?.focus();
    input.current?.select();
  }, [atOnce]);
  const [draft, setDraft] = useState<string>();
  const commit = () => {
    if (draft !== undefined && draft.trim() !== value) onCommit(draft.trim());
    setDraft(undefined);
  };
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key === 'Enter') commit();
    else if (event.key === 'Escape') setDraft(undefined);
    else return;
    if (onEnd === undefined) return;
    // Escape ends the typing, not the window that the field is in.
    event.preventDefault();
    ended.current = true;
    onEnd();
  };
  return (
    <div className={styles['field']}>
      <label htmlFor={id} className={labelUnseen ? 'unseen' : styles['label']}>
        {label}
      </label>
      <input
        ref={input}
        id={id}
        type="text"
        dir="auto"
        autoComplete="off"
        className={own['words']}
        value={draft ?? value}
        data-draft={draft === undefined ? undefined : ''}
        maxLength={maxLength}
        onChange={(event) => setDraft(event.target.value)}
        onBlur={() => {
          if (!ended.current) commit();
          ended.current = false;
        }}
        onKeyDown={onKeyDown}
      />
    </div>
  );
};
