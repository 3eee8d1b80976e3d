/** Proved pitches, kept on this computer beside the job they came from, for the jobs after it. */
import { openDB } from 'idb';
import * as v from 'valibot';
import type { KeptReading } from '../job/facts/pitch-history.ts';
import { keptReadingSchema } from '../job/facts/pitch-history.ts';

const shelf = 'readings';

const open = () =>
  openDB('tiltloom-pitches', 1, {
    upgrade: (database) => {
      database.createObjectStore(shelf, { autoIncrement: true });
    },
  });

/** In the order they were kept. What cannot be read is passed over, and left where it lies. */
export const loadReadings = async (): Promise<KeptReading[]> => {
  const database = await open();
  try {
    const stored: unknown[] = await database.getAll(shelf);
    return stored.flatMap((one) => {
      const checked = v.safeParse(keptReadingSchema, one);
      return checked.success ? [checked.output] : [];
    });
  } finally {
    database.close();
  }
};

/** Rejects with what the browser said when it could not be kept. */
export const keepReading = async (reading: KeptReading): Promise<void> => {
  const database = await open();
  try {
    await database.add(shelf, reading);
  } finally {
    database.close();
  }
};
