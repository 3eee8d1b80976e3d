/** Notes on what arrived, kept until the person dismisses them. */
import type { ArrivalNote } from '../../job/findings/all.ts';
import type { Floor } from '../floor.ts';

/** The wrong folder can hold thousands of files; beyond this number they are only counted. */
const NAMED_AT_MOST = 60;
const COUNT_ID = 'and-more';

export const createNotes = ({ work }: Floor) => {
  let serial = 0;
  let uncounted = 0;

  const add = (severity: ArrivalNote['severity'], message: string, file?: string): void => {
    const { arrivalNotes } = work.getState();
    const named = arrivalNotes.filter(({ id }) => id !== COUNT_ID);
    if (named.length === arrivalNotes.length) uncounted = 0;
    if (named.length >= NAMED_AT_MOST) {
      uncounted += 1;
      const count: ArrivalNote = {
        id: COUNT_ID,
        severity: 'note',
        message: `${uncounted} more ${uncounted === 1 ? 'file was' : 'files were'} left out.`,
      };
      work.setState({ arrivalNotes: [...named, count] });
      return;
    }
    serial += 1;
    const note: ArrivalNote = {
      id: `arrival-${serial}`,
      severity,
      message,
      ...(file === undefined ? {} : { file }),
    };
    work.setState({ arrivalNotes: [...named, note] });
  };

  const keepThose = (stays: (note: ArrivalNote) => boolean): void => {
    const { arrivalNotes } = work.getState();
    work.setState({ arrivalNotes: arrivalNotes.filter(stays) });
  };

  return {
    problem: (message: string, file?: string): void => add('problem', message, file),
    inPassing: (message: string, file?: string): void => add('note', message, file),
    dismiss: (id: string): void => keepThose((note) => note.id !== id),
    /** Removes the problems of a file that is good now. */
    dismissProblemsOf: (file: string): void =>
      keepThose((note) => note.severity !== 'problem' || note.file !== file),
    dismissAll: (): void => keepThose(() => false),
  };
};

export type Notes = ReturnType<typeof createNotes>;
