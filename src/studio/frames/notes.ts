/** Notes on what arrived, kept until the person puts them away. */
import type { ArrivalNote } from '../../state/work.ts';
import { workStore } from '../../state/work.ts';

/** A folder of the wrong kind can hold thousands of files; beyond this they are only counted. */
const NAMED_AT_MOST = 60;
const COUNT_ID = 'and-more';

let serial = 0;
let uncounted = 0;

const add = (severity: ArrivalNote['severity'], message: string, file?: string): void => {
  const { arrivalNotes, set } = workStore.getState();
  const named = arrivalNotes.filter(({ id }) => id !== COUNT_ID);
  if (named.length === arrivalNotes.length) uncounted = 0;
  if (named.length >= NAMED_AT_MOST) {
    uncounted += 1;
    const count: ArrivalNote = {
      id: COUNT_ID,
      severity: 'note',
      message: `${uncounted} more ${uncounted === 1 ? 'file was' : 'files were'} left out.`,
    };
    set({ arrivalNotes: [...named, count] });
    return;
  }
  serial += 1;
  const note: ArrivalNote = {
    id: `arrival-${serial}`,
    severity,
    message,
    ...(file === undefined ? {} : { file }),
  };
  set({ arrivalNotes: [...named, note] });
};

export const noteProblem = (message: string, file?: string): void => add('problem', message, file);
export const noteInPassing = (message: string, file?: string): void => add('note', message, file);

export const dismissNote = (id: string): void => {
  const { arrivalNotes, set } = workStore.getState();
  set({ arrivalNotes: arrivalNotes.filter((note) => note.id !== id) });
};

/** What was wrong with a file is no more. */
export const dismissProblemsOf = (file: string): void => {
  const { arrivalNotes, set } = workStore.getState();
  set({
    arrivalNotes: arrivalNotes.filter((note) => note.severity !== 'problem' || note.file !== file),
  });
};

export const dismissAllNotes = (): void => workStore.getState().set({ arrivalNotes: [] });
