/** A choice that may stay open. */
import { SelectField } from '../../../ui/index.ts';

const NOT_KNOWN = '';

export const Choice = <Value extends string>(props: {
  readonly label: string;
  readonly value: Value | undefined;
  readonly choices: readonly (readonly [Value, string])[];
  readonly onChange: (value: Value | undefined) => void;
}) => (
  <SelectField
    label={props.label}
    value={props.value ?? NOT_KNOWN}
    choices={[
      { value: NOT_KNOWN, label: 'Not looked at yet' },
      ...props.choices.map(([value, label]) => ({ value, label })),
    ]}
    onChange={(value) => props.onChange(value === NOT_KNOWN ? undefined : value)}
  />
);
