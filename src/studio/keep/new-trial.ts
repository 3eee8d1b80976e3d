/** What every trial begins with. */
import { isoDay } from '../../core/units/day.ts';
import { newId } from '../../files/new-id.ts';
import type { TrialNotes } from '../../job/facts/trials.ts';
import type { FileState } from '../../state/tasks.ts';

/** The name of the last woven sheet, unless the job has changed since: then the sheet is of another print. */
export const newTrialNotes = (sheet: FileState): TrialNotes => ({
  id: newId(),
  on: isoDay(new Date()),
  file: sheet.stage === 'woven' && !sheet.stale ? sheet.files[0]?.fileName : undefined,
});
