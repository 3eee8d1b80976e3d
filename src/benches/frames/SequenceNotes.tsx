import { sayGap, sayRepeat } from '../../core/frames/gaps.ts';
import { checkSizes, sayOdd } from '../../core/frames/shapes.ts';
import { nameInText, shownName } from '../../core/names/shown.ts';
import { ownRun } from '../../job/facts/made.ts';
import { sequenceOf } from '../../job/facts/sheet.ts';
import type { Job } from '../../job/schema/job.ts';
import type { NoticeKind } from '../../ui/index.ts';
import { Button, focusIfLost, Name, NoticeMark, Panel } from '../../ui/index.ts';
import { useJob, useStudio, useWork } from '../studio.ts';
import styles from './SequenceNotes.module.css';

interface Line {
  readonly kind: NoticeKind;
  readonly text: string;
}

const NAMED_AT_MOST = 12;

const sayLost = (names: readonly string[]): string =>
  `Missing ${names.length === 1 ? 'original' : 'originals'}: ${names.slice(0, NAMED_AT_MOST).map(nameInText).join(', ')}` +
  `${names.length > NAMED_AT_MOST ? ` and ${names.length - NAMED_AT_MOST} more` : ''}. ` +
  'The file went before it had been copied, the page was closed before the copy was whole, or the browser’s storage was cleared. ' +
  'Add the same files again: each goes back to its place.';

/** What can be said of the sequence as it stands; each line goes when its cause does. */
const linesOf = (job: Job, missing: ReadonlySet<string>): Line[] => {
  const { frames } = job;
  const run = ownRun(frames);
  // A title may have any shape.
  const { usual, odd } = checkSizes(sequenceOf(job));
  const lost = frames.filter(({ id }) => missing.has(id)).map(({ name }) => name);
  return [
    ...(lost.length > 0 ? [{ kind: 'problem' as const, text: sayLost(lost) }] : []),
    ...(run?.gaps ?? []).map((gap): Line => ({ kind: 'caution', text: sayGap(gap) })),
    ...(run?.repeats ?? []).map((repeat): Line => ({ kind: 'caution', text: sayRepeat(repeat) })),
    ...odd.map((one): Line => ({
      kind: one.differs === 'shape' ? 'caution' : 'info',
      text: usual === undefined ? '' : sayOdd(one, usual),
    })),
    ...(run !== undefined && run.step > 1n
      ? [
          {
            kind: 'info' as const,
            text: `The numbers go up by ${run.step} from frame to frame. That is taken as meant, so none in between counts as missing.`,
          },
        ]
      : []),
  ];
};

const words = { info: 'Note', caution: 'Caution', problem: 'Problem' } as const;

const Mark = ({ kind }: { readonly kind: NoticeKind }) => (
  <span className={styles[kind]}>
    <NoticeMark kind={kind} />
    <span className="unseen">{words[kind]}: </span>
  </span>
);

/** The note goes with its button: the bench's name takes the focus. */
const thenFocus = (dismiss: () => void) => () => {
  dismiss();
  focusIfLost(() => document.querySelector('h1'));
};

/** Missing, odd and unreadable frames, one by one. Absent while there is nothing to say. */
export const SequenceNotes = () => {
  const { notes } = useStudio();
  const job = useJob();
  const arrivals = useWork((work) => work.arrivalNotes);
  const missing = useWork((work) => work.missingOriginals);
  const lines = linesOf(job, missing);
  if (lines.length + arrivals.length === 0) return null;
  return (
    <Panel
      title="Worth knowing"
      actions={
        arrivals.length > 1 && (
          <Button look="quiet" onClick={thenFocus(notes.dismissAll)}>
            Dismiss all
          </Button>
        )
      }
    >
      <ul className={styles['notes']}>
        {arrivals.map(({ id, severity, file, message }) => (
          <li key={id}>
            <Mark kind={severity === 'problem' ? 'problem' : 'info'} />
            <p>
              {/* Most messages name their file themselves. */}
              {file !== undefined && !message.includes(shownName(file)) && (
                <strong>
                  <Name>{file}</Name>:{' '}
                </strong>
              )}
              {message}
            </p>
            <Button
              look="quiet"
              aria-label={`Dismiss the note on ${file === undefined ? 'what came in' : nameInText(file)}`}
              onClick={thenFocus(() => notes.dismiss(id))}
            >
              Dismiss
            </Button>
          </li>
        ))}
        {lines.map(({ kind, text }) => (
          <li key={text}>
            <Mark kind={kind} />
            <p>{text}</p>
          </li>
        ))}
      </ul>
    </Panel>
  );
};
