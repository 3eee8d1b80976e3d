import { isoDay } from '../../core/units/day.ts';
import { newId } from '../../files/new-id.ts';
import type { TrialNotes } from '../../job/facts/trials.ts';
import type { FileState } from '../../state/tasks.ts';

/** Notes of a new trial, with the file name of the last woven sheet if that still shows the job. */
export const newTrialNotes = (sheet: FileState): TrialNotes => ({
  id: newId(),
  on: isoDay(new Date()),
  file: sheet.stage === 'woven' && !sheet.stale ? sheet.files[0]?.fileName : undefined,
});
