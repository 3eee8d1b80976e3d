/** What is printed around the picture: one set of ticks for the page, the tiles and several prints. */
import type { ReactNode } from 'react';
import { changePage } from '../../job/edits/page.ts';
import { copyNumber, pageOf, printedAround } from '../../job/facts/page.ts';
import { pieceNamesOf, runKindOf } from '../../job/facts/print-run.ts';
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
  /** False where there is no room for one: in the rim of several prints. */
  readonly hasSignLine?: boolean;
  /** Said below the ticks. */
  readonly children?: ReactNode;
}

/** What the label says of the edition, in its plain capitals: what is not one of its letters, figures or signs is left out. */
const Edition = ({ hasSignLine }: { readonly hasSignLine: boolean }) => {
  const edit = useEdit(changePage);
  const job = useJob();
  const { edition = '', numbered = false, signLine = false } = pageOf(job);
  const number = copyNumber(job, runKindOf(job) === 'tiles' ? pieceNamesOf(job).length : 1);
  return (
    <>
      <TextField
        label="Edition or signature, on the label"
        value={edition}
        maxLength={120}
        onCommit={(text) => void edit('edition', { edition: text === '' ? undefined : text })}
      />
      <label className={styles['check']}>
        <input
          type="checkbox"
          checked={numbered}
          onChange={({ target }) =>
            void edit('numbered copies', { numbered: target.checked || undefined })
          }
        />
        Number the copies
      </label>
      {number !== undefined && (
        <Prose>
          The next file is numbered {number}. “Copies of each” under Print run says how many there
          are. Tick a copy off there when it is mounted, then weave again: the number counts on.
        </Prose>
      )}
      {hasSignLine && (
        <label className={styles['check']}>
          <input
            type="checkbox"
            checked={signLine}
            onChange={({ target }) =>
              void edit('line to sign on', { signLine: target.checked || undefined })
            }
          />
          A line to number and sign by hand
        </label>
      )}
    </>
  );
};

export const PrintedAround = (props: Props) => {
  const { legend, marks = labels.marks, hasSignLine = true, children } = props;
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
      {ticked.label && <Edition hasSignLine={hasSignLine} />}
      {children}
      {isMirrored(job) && (
        <Prose>The file is mirrored for film, as chosen under Page; drawings show the front.</Prose>
      )}
    </fieldset>
  );
};
