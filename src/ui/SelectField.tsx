import { useId, useState } from 'react';
import styles from './FieldBox.module.css';
import { FieldLabel } from './FieldLabel.tsx';
import { useMeaning } from './Meaning.tsx';
import own from './SelectField.module.css';

interface Props<Value extends string> {
  readonly label: string;
  readonly choices: readonly { readonly value: Value; readonly label: string }[];
  readonly value: Value;
  onChange(value: Value): void;
}

/** A list of more choices is filled when it is about to be opened: thousands would hold the page at each change. */
const FILLED_AT_MOST = 100;

/** One of many, on the native select. */
export const SelectField = <Value extends string>(props: Props<Value>) => {
  const id = useId();
  const [asked, setAsked] = useState(false);
  const { ask, onKeyDown } = useMeaning(props.label);
  const choices =
    asked || props.choices.length <= FILLED_AT_MOST
      ? props.choices
      : props.choices.filter(({ value }) => value === props.value);
  return (
    <div className={styles['field']} onKeyDown={onKeyDown}>
      <FieldLabel htmlFor={id} label={props.label} ask={ask} />
      <select
        id={id}
        className={own['select']}
        value={props.value}
        onChange={(event) => props.onChange(event.target.value as Value)}
        // The pointer comes before the list opens, the focus before a key does.
        onPointerDown={() => setAsked(true)}
        onFocus={() => setAsked(true)}
        onBlur={() => setAsked(false)}
      >
        {choices.map(({ value, label }) => (
          <option key={value} value={value}>
            {label}
          </option>
        ))}
      </select>
    </div>
  );
};
