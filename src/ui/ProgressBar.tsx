import { useId } from 'react';
import { timeLeft } from './time-left.ts';
import styles from './Gauge.module.css';

interface Props {
  /** Accessible name, exactly. */
  readonly label: string;
  readonly done: number;
  readonly total: number;
  /** What is being counted: "rows", "frames". */
  readonly of: string;
  /** Left out while it cannot be told. */
  readonly secondsLeft?: number | undefined;
}

export const ProgressBar = ({ label, done, total, of, secondsLeft }: Props) => {
  const id = useId();
  const share = total > 0 ? Math.floor((100 * done) / total) : 0;
  const text = `${share} %, ${done} of ${total} ${of}`;
  const left = secondsLeft === undefined ? '' : timeLeft(secondsLeft);
  return (
    <div className={styles['field']}>
      <label htmlFor={id} className={styles['label']}>
        {label}
      </label>
      <span className={styles['value']}>{left === '' ? text : `${text} · ${left}`}</span>
      <progress
        id={id}
        className={styles['bar']}
        max={total > 0 ? total : 1}
        value={done}
        aria-valuetext={left === '' ? text : `${text}, ${left}`}
      />
    </div>
  );
};
