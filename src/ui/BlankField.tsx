import type { KeyboardEvent } from 'react';
import { useId, useState } from 'react';
import { FieldBox } from './FieldBox.tsx';

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
    // Typed back to what it was: nothing to change, and nothing to undo.
    if (draft.text.trim() === value) {
      setDraft(undefined);
      return;
    }
    const error = onCommit(draft.text.trim());
    setDraft(error === undefined ? undefined : { text: draft.text, error });
  };
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key === 'Enter') commit();
    else if (event.key === 'Escape') setDraft(undefined);
    else return;
    event.preventDefault();
  };
  return (
    <FieldBox
      id={id}
      label={label}
      text={draft?.text ?? value}
      unit={unit}
      words={unit === ''}
      isDraft={draft !== undefined}
      error={draft?.error}
      hint={hint}
      onText={(text) => setDraft({ text })}
      onLeave={commit}
      onKeyDown={onKeyDown}
    />
  );
};
