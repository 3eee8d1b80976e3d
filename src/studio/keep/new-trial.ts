/** What every trial begins with. */
import { newId } from '../../files/new-id.ts';
import type { TrialNotes } from '../../job/facts/trials.ts';
import type { WeaveState } from '../../state/work.ts';

/** ISO date of today, where the person is: Sweden writes dates as ISO 8601 does. */
export const today = (): string => new Date().toLocaleDateString('sv-SE');

/** Names the last woven sheet while it is the job's: what was woven before a change is another print. */
export const newTrialNotes = (weave: WeaveState): TrialNotes => ({
  id: newId(),
  on: today(),
  file: weave.stage === 'woven' && !weave.stale ? weave.fileName : undefined,
});
