/** Between the work store and the browser's disk: pitches that strips have proved. */
import { keepReading, loadReadings } from '../../files/pitch-store.ts';
import type { Job } from '../../job/job.ts';
import { keptReadingOf } from '../../job/pitch-history.ts';
import { workStore } from '../../state/work.ts';
import { tellIfNoRoom } from './no-room.ts';

/** Never throws: without a database there is no history, and all else works. */
export const recallPitches = async (): Promise<void> => {
  try {
    const stored = await loadReadings();
    // What was proved meanwhile comes after what was there.
    const { pitchReadings, set } = workStore.getState();
    set({ pitchReadings: [...stored, ...pitchReadings] });
  } catch {
    // A private window, or storage refused.
  }
};

/** Remembers the job's proved pitch for other jobs. Resolves with a sentence when it lasts only today. */
export const rememberPitch = async (job: Job): Promise<string | undefined> => {
  const reading = keptReadingOf(job);
  if (reading === undefined) return undefined;
  const { pitchReadings, set } = workStore.getState();
  set({ pitchReadings: [...pitchReadings, reading] });
  try {
    await keepReading(reading);
    return undefined;
  } catch (error) {
    tellIfNoRoom(error, 'the proved pitch');
    const reason = error instanceof Error ? error.message : String(error);
    return `The pitch is on the job sheet, but this browser could not keep it for other jobs (${reason}). Write the figure down.`;
  }
};
