import { useId } from 'react';
import styles from './ChoiceField.module.css';
import box from './FieldBox.module.css';
import { useMeaning } from './Meaning.tsx';

interface Choice<Value extends string> {
  readonly value: Value;
  /** Accessible name of the radio, and what is shown. */
  readonly label: string;
  /** Cannot be taken: say nearby why. */
  readonly off?: boolean;
}

interface Props<Value extends string> {
  readonly label: string;
  readonly choices: readonly Choice<Value>[];
  readonly value: Value;
  onChange(value: Value): void;
  readonly hint?: string;
  /** Sits in a line with its label, in small type: for switches in a bar. */
  readonly compact?: boolean;
  /** Whole answers rather than names: each a line, side by side where there is room. */
  readonly answers?: boolean;
}

/** A few choices in a row, one of them taken: native radios laid over their segments. */
export const ChoiceField = <Value extends string>(props: Props<Value>) => {
  const id = useId();
  const { ask, onKeyDown } = useMeaning(props.label);
  return (
    <div
      className={[
        styles['field'],
        ...(props.compact === true ? [styles['compact']] : []),
        ...(props.answers === true ? [styles['answers']] : []),
      ].join(' ')}
      onKeyDown={onKeyDown}
    >
      <div className={box['head']}>
        <span id={id} className={box['label']}>
          {props.label}
        </span>
        {ask}
      </div>
      <div
        role="radiogroup"
        aria-labelledby={id}
        aria-describedby={props.hint === undefined ? undefined : `${id}-hint`}
        className={styles['row']}
      >
        {props.choices.map((choice) => (
          <label key={choice.value} className={styles['segment']}>
            <input
              type="radio"
              className="over-all"
              name={id}
              value={choice.value}
              checked={choice.value === props.value}
              disabled={choice.off}
              onChange={() => props.onChange(choice.value)}
            />
            <span>{choice.label}</span>
          </label>
        ))}
      </div>
      {props.hint !== undefined && (
        <span id={`${id}-hint`} className={box['hint']}>
          {props.hint}
        </span>
      )}
    </div>
  );
};
