import { useId } from 'react';
import styles from './FieldBox.module.css';
import own from './SelectField.module.css';

interface Props<Value extends string> {
  readonly label: string;
  readonly choices: readonly { readonly value: Value; readonly label: string }[];
  readonly value: Value;
  onChange(value: Value): void;
}

/** One of many, on the native select. */
export const SelectField = <Value extends string>(props: Props<Value>) => {
  const id = useId();
  return (
    <div className={styles['field']}>
      <label htmlFor={id} className={styles['label']}>
        {props.label}
      </label>
      <select
        id={id}
        className={own['select']}
        value={props.value}
        onChange={(event) => props.onChange(event.target.value as Value)}
      >
        {props.choices.map(({ value, label }) => (
          <option key={value} value={value}>
            {label}
          </option>
        ))}
      </select>
    </div>
  );
};
