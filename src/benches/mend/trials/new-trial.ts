/** What every trial begins with. */
import { newId } from '../../../files/new-id.ts';
import type { TrialNotes } from '../../../job/trials.ts';

/** ISO date of today, where the person is: Sweden writes dates as ISO 8601 does. */
export const today = (): string => new Date().toLocaleDateString('sv-SE');

export const newTrialNotes = (file: string | undefined): TrialNotes => ({
  id: newId(),
  on: today(),
  file,
});
