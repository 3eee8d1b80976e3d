import { useId } from 'react';
import styles from './Gauge.module.css';
import { FieldLabel } from './FieldLabel.tsx';
import { useMeaning } from './Meaning.tsx';

interface Props {
  /** Accessible name, exactly. */
  readonly label: string;
  readonly value: number;
  readonly min: number;
  readonly max: number;
  readonly step: number;
  /** What the value is called, with its unit: shown, and said aloud. */
  readonly valueText: string;
  onChange(value: number): void;
  /** Marks under the track, as values. */
  readonly ticks?: readonly number[];
}

export const Slider = (props: Props) => {
  const id = useId();
  const { ask, onKeyDown } = useMeaning(props.label);
  return (
    <div className={styles['field']} onKeyDown={onKeyDown}>
      <FieldLabel htmlFor={id} label={props.label} ask={ask} className={styles['label']} />
      <output htmlFor={id} className={styles['value']}>
        {props.valueText}
      </output>
      <input
        id={id}
        type="range"
        className={styles['range']}
        min={props.min}
        max={props.max}
        step={props.step}
        value={props.value}
        aria-valuetext={props.valueText}
        list={props.ticks === undefined ? undefined : `${id}-ticks`}
        onChange={(event) => props.onChange(event.target.valueAsNumber)}
      />
      {props.ticks !== undefined && (
        <datalist id={`${id}-ticks`}>
          {props.ticks.map((tick) => (
            <option key={tick} value={tick} />
          ))}
        </datalist>
      )}
    </div>
  );
};
