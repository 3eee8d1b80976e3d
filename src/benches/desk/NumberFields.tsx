/** Typed fields for numbers that lie together in one part of the job: a line each. */
import type { Measure } from '../../core/units/measure.ts';
import { BlankMeasure, MeasureField } from '../../ui/index.ts';

/** Names of the numbers among the fields of a part, not counting fields that it may have under any name. */
type NumberName<Part> = keyof {
  [
    Name in keyof Part as string extends Name
      ? never
      : Part[Name] extends number | undefined
        ? Name
        : never
  ]: true;
} &
  string;

/** With a question mark behind its name it may be left empty. */
export type NumberRow<Part> = readonly [
  name: NumberName<Part> | `${NumberName<Part>}?`,
  label: string,
  measure: Measure,
  hint?: string,
];

interface Props<Part> {
  /** What they hold now. */
  readonly of: Part;
  readonly rows: readonly NumberRow<Part>[];
  /** The label in lower case, and the field that changes. Returns the sentence that refuses it, if any. */
  edit(label: string, change: object): string | undefined;
}

export const NumberFields = <Part extends object>({ of, rows, edit }: Props<Part>) =>
  rows.map(([named, label, measure, hint]) => {
    const name = named.replace('?', '');
    const value = of[name as keyof Part] as number;
    const field = {
      label,
      measure,
      ...(hint === undefined ? {} : { hint }),
      onCommit: (typed: number | undefined) => edit(label.toLowerCase(), { [name]: typed }),
    };
    return named.endsWith('?') ? (
      <BlankMeasure key={name} {...field} value={value} />
    ) : (
      <MeasureField key={name} {...field} value={value} />
    );
  });
