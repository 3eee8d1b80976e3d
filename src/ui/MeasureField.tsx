import type { KeyboardEvent } from 'react';
import { useId } from 'react';
import type { Measure } from '../core/units/measure.ts';
import { FieldBox } from './FieldBox.tsx';
import { useDraft } from './use-draft.ts';

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

/** One quantity, typed in its shown unit or any other it knows. Enter or leaving the field commits. */
export const MeasureField = ({ label, value, measure, onCommit, hint }: MeasureFieldProps) => {
  const take = (text: string) => {
    const read = measure.read(text);
    return read.ok ? onCommit(read.value, read.unit, 'typed') : read.message;
  };
  // By the value itself: two that look alike are not the same.
  const { draft, settle, field } = useDraft(
    measure.format(value),
    take,
    `${value} ${measure.unit}`,
  );
  const step = (direction: 1 | -1, coarse: boolean) => {
    const read = draft === undefined ? undefined : measure.read(draft.text);
    const next = measure.step(read?.ok ? read.value : value, direction, coarse);
    settle(measure.format(next), onCommit(next, read?.ok ? read.unit : '', 'stepped'));
  };
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key === 'ArrowUp' || event.key === 'PageUp') step(1, event.key === 'PageUp');
    else if (event.key === 'ArrowDown' || event.key === 'PageDown')
      step(-1, event.key === 'PageDown');
    else return field.onKeyDown(event);
    event.preventDefault();
  };
  return (
    <FieldBox
      id={useId()}
      label={label}
      unit={measure.unit}
      hint={hint}
      selectOnFocus
      {...field}
      onKeyDown={onKeyDown}
    />
  );
};
