import { useId } from 'react';
import { FieldBox } from './FieldBox.tsx';
import { useDraft } from './use-draft.ts';

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
  const { field } = useDraft(value, onCommit);
  return (
    <FieldBox id={useId()} label={label} unit={unit} words={unit === ''} hint={hint} {...field} />
  );
};
