/** Recalls and remembers proved pitches. */
import { messageOf } from '../../contract/errors.ts';
import { keepReading, loadReadings } from '../../files/pitch-store.ts';
import type { KeptReading } from '../../job/facts/pitch-history.ts';
import { keptReadingOf } from '../../job/facts/pitch-history.ts';
import type { Job } from '../../job/schema/job.ts';
import type { Floor } from '../floor.ts';
import type { Room } from './no-room.ts';

const onSheet = 'The pitch is on the job sheet, but';

export const createPitches = ({ work }: Floor, room: Room) => {
  /** In the order they were proved. */
  const unkept: KeptReading[] = [];

  const keepAll = async (): Promise<void> => {
    for (let first = unkept[0]; first !== undefined; first = unkept[0]) {
      await keepReading(first);
      unkept.shift();
    }
  };

  return {
    /** Never rejects: without a database there is only no history. */
    recall: async (): Promise<void> => {
      try {
        const stored = await loadReadings();
        // A pitch may have been proved while the database was read.
        work.setState(({ pitchReadings }) => ({ pitchReadings: [...stored, ...pitchReadings] }));
      } catch {
        // A private window, or the browser refused storage.
      }
    },

    /** Remembers the job's proved pitch for other jobs. Resolves with a sentence if it could not be kept. */
    remember: async (job: Job): Promise<string | undefined> => {
      const reading = keptReadingOf(job);
      if (reading === undefined) return undefined;
      work.setState(({ pitchReadings }) => ({ pitchReadings: [...pitchReadings, reading] }));
      unkept.push(reading);
      try {
        if (await room.keep('the proved pitch', keepAll)) return undefined;
        return `${onSheet} the browser’s disk has no room to keep it for other jobs. It is kept as soon as there is some: see under Jobs what can be freed.`;
      } catch (error) {
        unkept.splice(unkept.indexOf(reading), 1);
        const reason = messageOf(error);
        return `${onSheet} this browser could not keep it for other jobs (${reason}). Write the figure down.`;
      }
    },
  };
};
