/** Makes a change that may have been refused before it reached the job. */
import type { JobEdit } from '../../job/edits/edit.ts';
import { useChange } from '../studio.ts';

/** What it returns takes an edit, or the sentence that refuses one, and returns the sentence, if any. */
export const useEditOrRefusal = (): ((edit: JobEdit | string) => string | undefined) => {
  const change = useChange();
  return (edit) => (typeof edit === 'string' ? edit : change(...edit));
};
