/** What is printed around the picture: one set of ticks for the page, the tiles and several prints. */
import type { ReactNode } from 'react';
import { changePage } from '../../job/edits/page.ts';
import { pageOf, printedAround } from '../../job/facts/page.ts';
import { isMirrored } from '../../job/facts/printer.ts';
import { Prose, TextField } from '../../ui/index.ts';
import { useEdit, useJob } from '../studio.ts';
import styles from './mount.module.css';

type Part = keyof ReturnType<typeof printedAround>;

const labels: Readonly<Record<Part, string>> = {
  rails: 'Rails at all four sides',
  marks: 'Crop and centre marks',
  label: 'Label',
  bar: 'Measuring bar',
};

interface Props {
  readonly legend: string;
  /** What the marks are in this layout. */
  readonly marks?: string;
  /** Said below the ticks. */
  readonly children?: ReactNode;
}

/** In the label's plain capitals: what is not one of its letters, figures or signs is left out. */
const Edition = () => {
  const change = useEdit(changePage);
  const edition = pageOf(useJob()).edition ?? '';
  return (
    <TextField
      label="Edition or signature, on the label"
      value={edition}
      maxLength={120}
      onCommit={(text) => void change('edition', { edition: text === '' ? undefined : text })}
    />
  );
};

export const PrintedAround = ({ legend, marks = labels.marks, children }: Props) => {
  const change = useEdit(changePage);
  const job = useJob();
  const ticked = printedAround(job);
  return (
    <fieldset className={styles['around']}>
      <legend>{legend}</legend>
      {(Object.keys(labels) as Part[]).map((part) => (
        <label key={part} className={styles['check']}>
          <input
            type="checkbox"
            checked={ticked[part]}
            onChange={(event) => void change(labels[part], { [part]: event.target.checked })}
          />
          {part === 'marks' ? marks : labels[part]}
        </label>
      ))}
      {ticked.label && <Edition />}
      {children}
      {isMirrored(job) && (
        <Prose>The file is mirrored for film, as chosen under Page; drawings show the front.</Prose>
      )}
    </fieldset>
  );
};
