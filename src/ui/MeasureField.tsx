import type { KeyboardEvent } from 'react';
import { useId, useState } from 'react';
import type { Measure } from '../core/units/measure.ts';
import { FieldBox } from './FieldBox.tsx';

interface MeasureFieldProps {
  /** Accessible name, exactly. */
  readonly label: string;
  /** In the document's own unit, as the measure says. */
  readonly value: number;
  readonly measure: Measure;
  /**
   * A value was typed or stepped to. `unit`: the one it was typed in. Return a sentence to refuse it:
   * the text then stays in the field with the sentence beneath, and the document keeps what it had.
   */
  onCommit(value: number, unit: string, how: 'typed' | 'stepped'): string | undefined;
  /** A short line under the field while there is no error. */
  readonly hint?: string;
}

/** A draft is text that differs from the value: being typed, or refused. */
interface Draft {
  readonly text: string;
  readonly error?: string;
}

/** One quantity, typed in its shown unit or any other it knows. Enter or leaving the field commits. */
export const MeasureField = ({ label, value, measure, onCommit, hint }: MeasureFieldProps) => {
  const id = useId();
  const [draft, setDraft] = useState<Draft>();
  const [settled, setSettled] = useState({ value, unit: measure.unit });
  // The document changed under a draft (undo, a remedy, the unit switch): the draft is out of date.
  if (settled.value !== value || settled.unit !== measure.unit) {
    setSettled({ value, unit: measure.unit });
    setDraft(undefined);
  }

  const shown = measure.format(value);
  const commit = () => {
    if (draft === undefined) return;
    if (draft.text.trim() === shown) {
      setDraft(undefined);
      return;
    }
    const read = measure.read(draft.text);
    const error = read.ok ? onCommit(read.value, read.unit, 'typed') : read.message;
    setDraft(error === undefined ? undefined : { text: draft.text, error });
  };
  const step = (direction: 1 | -1, coarse: boolean) => {
    const read = draft === undefined ? undefined : measure.read(draft.text);
    const next = measure.step(read?.ok ? read.value : value, direction, coarse);
    const error = onCommit(next, read?.ok ? read.unit : '', 'stepped');
    setDraft(error === undefined ? undefined : { text: measure.format(next), error });
  };
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key === 'Enter') commit();
    else if (event.key === 'Escape') setDraft(undefined);
    else if (event.key === 'ArrowUp' || event.key === 'PageUp') step(1, event.key === 'PageUp');
    else if (event.key === 'ArrowDown' || event.key === 'PageDown')
      step(-1, event.key === 'PageDown');
    else return;
    event.preventDefault();
  };

  return (
    <FieldBox
      id={id}
      label={label}
      text={draft?.text ?? shown}
      unit={measure.unit}
      isDraft={draft !== undefined}
      error={draft?.error}
      hint={hint}
      selectOnFocus
      onText={(text) => setDraft({ text })}
      onLeave={commit}
      onKeyDown={onKeyDown}
    />
  );
};
