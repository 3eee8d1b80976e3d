import type { KeyboardEvent } from 'react';
import styles from './FieldBox.module.css';
import { FieldLabel } from './FieldLabel.tsx';
import { useMeaning } from './Meaning.tsx';

interface Props {
  readonly id: string;
  readonly label: string;
  readonly text: string;
  /** Behind the text; '' for none. */
  readonly unit: string;
  /** Words stand at the start of the box, numbers at its end. */
  readonly words?: boolean;
  /** True while what is shown is not yet the document's. */
  readonly isDraft: boolean;
  readonly error?: string | undefined;
  /** Under the field while there is no error. */
  readonly hint?: string | undefined;
  readonly selectOnFocus?: boolean;
  onText(text: string): void;
  onLeave(): void;
  onKeyDown(event: KeyboardEvent): void;
}

/** The looks of a typed field: label, box with its unit, and the line beneath for hint or error. */
export const FieldBox = (props: Props) => {
  const { id, unit, error } = props;
  const { ask, onKeyDown: onAsk } = useMeaning(props.label);
  const note = error ?? props.hint;
  const described = [unit === '' ? '' : `${id}-unit`, note === undefined ? '' : `${id}-note`]
    .filter((part) => part !== '')
    .join(' ');
  return (
    <div className={styles['field']} onKeyDown={onAsk}>
      <FieldLabel htmlFor={id} label={props.label} ask={ask} />
      <div className={props.words ? `${styles['box']} ${styles['words']}` : styles['box']}>
        <input
          id={id}
          type="text"
          autoComplete="off"
          dir={props.words ? 'auto' : undefined}
          spellCheck={false}
          value={props.text}
          data-draft={props.isDraft ? '' : undefined}
          aria-invalid={error === undefined ? undefined : true}
          aria-describedby={described === '' ? undefined : described}
          onChange={(event) => props.onText(event.target.value)}
          onFocus={props.selectOnFocus ? (event) => event.target.select() : undefined}
          onBlur={props.onLeave}
          onKeyDown={props.onKeyDown}
        />
        {unit !== '' && (
          <span id={`${id}-unit`} className={styles['unit']}>
            {unit}
          </span>
        )}
      </div>
      {/* Always there, so that an error is announced when it comes. */}
      <p
        id={`${id}-note`}
        className={error === undefined ? styles['hint'] : styles['error']}
        aria-live="polite"
      >
        {note}
      </p>
    </div>
  );
};
