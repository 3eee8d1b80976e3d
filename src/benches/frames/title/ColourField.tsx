/** One colour, on the browser's own chooser. */
import { useId } from 'react';
import styles from './title.module.css';

interface Props {
  readonly label: string;
  /** # and six digits. */
  readonly value: string;
  onChange(value: string): void;
}

export const ColourField = ({ label, value, onChange }: Props) => {
  const id = useId();
  return (
    <div className={styles['colour']}>
      <label htmlFor={id}>{label}</label>
      <input
        id={id}
        type="color"
        value={value}
        onChange={(event) => onChange(event.target.value.toLowerCase())}
      />
    </div>
  );
};
