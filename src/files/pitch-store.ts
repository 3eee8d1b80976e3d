/** Keeps proved pitches on this computer, for later jobs. */
import * as v from 'valibot';
import type { KeptReading } from '../job/facts/pitch-history.ts';
import { keptReadingSchema } from '../job/facts/pitch-history.ts';
import { openStore, withDatabase } from './one-store.ts';

const shelf = 'readings';

const open = () => openStore('tiltloom-pitches', shelf, { autoIncrement: true });

/** In the order they were kept. A reading that cannot be read is skipped and stays stored. */
export const loadReadings = (): Promise<KeptReading[]> =>
  withDatabase(open, async (database) => {
    const stored: unknown[] = await database.getAll(shelf);
    return stored.flatMap((one) => {
      const checked = v.safeParse(keptReadingSchema, one);
      return checked.success ? [checked.output] : [];
    });
  });

/** Rejects with what the browser said. */
export const keepReading = async (reading: KeptReading): Promise<void> => {
  await withDatabase(open, (database) => database.add(shelf, reading));
};
