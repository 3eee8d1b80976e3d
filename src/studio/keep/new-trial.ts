/** What every trial begins with. */
import { isoDay } from '../../core/units/day.ts';
import { newId } from '../../files/new-id.ts';
import type { TrialNotes } from '../../job/facts/trials.ts';
import type { FileState } from '../../state/tasks.ts';

/** Names the last woven sheet while it is the job's: what was woven before a change is another print. */
export const newTrialNotes = (sheet: FileState): TrialNotes => ({
  id: newId(),
  on: isoDay(new Date()),
  file: sheet.stage === 'woven' && !sheet.stale ? sheet.files[0]?.fileName : undefined,
});
