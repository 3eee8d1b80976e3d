import type { Measure } from '../core/units/measure.ts';
import { BlankField } from './BlankField.tsx';

interface Props {
  readonly label: string;
  readonly value: number | undefined;
  readonly measure: Measure;
  readonly hint?: string;
  /** Undefined: not known any more. */
  onCommit(value: number | undefined): string | undefined;
}

/** A measure that may be unknown. It has no likely value: empty is empty. */
export const BlankMeasure = ({ label, value, measure, hint, onCommit }: Props) => (
  <BlankField
    label={label}
    value={value === undefined ? '' : measure.format(value)}
    unit={measure.unit}
    {...(hint === undefined ? {} : { hint })}
    onCommit={(text) => {
      if (text === '') return onCommit(undefined);
      const read = measure.read(text);
      return read.ok ? onCommit(read.value) : read.message;
    }}
  />
);
