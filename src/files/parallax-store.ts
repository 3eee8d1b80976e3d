/** Keeps the last complete measurement of parallax on this computer, so that softening survives a reload. */
import * as v from 'valibot';
import type { WholeParallax } from '../job/facts/parallax.ts';
import { openStore, withDatabase } from './one-store.ts';

const shelf = 'measured';
const LAST = 'last';

const open = () => openStore('tiltloom-parallax', shelf);

const count = v.pipe(v.number(), v.integer(), v.minValue(1));
const share = v.pipe(v.number(), v.minValue(0), v.maxValue(1));
const floats = v.instance(Float32Array<ArrayBuffer>);
const votes = v.pipe(v.number(), v.integer(), v.minValue(0));

const keptSchema = v.object({
  key: v.string(),
  pairs: v.array(
    v.pipe(
      v.object({
        columns: count,
        rows: count,
        placeWidth: share,
        placeHeight: share,
        shift: floats,
        rise: floats,
      }),
      v.check(
        ({ columns, rows, shift, rise }) =>
          shift.length === columns * rows && rise.length === columns * rows,
      ),
    ),
  ),
  votes: v.object({ right: votes, reversed: votes }),
});

/** Undefined if there is none that can be read: it is then measured again. */
export const loadParallax = (): Promise<WholeParallax | undefined> =>
  withDatabase(open, async (database) => {
    const checked = v.safeParse(keptSchema, await database.get(shelf, LAST));
    return checked.success ? checked.output : undefined;
  });

/** Replaces what was kept. Rejects with what the browser said. */
export const keepParallax = async (whole: WholeParallax): Promise<void> => {
  await withDatabase(open, (database) => database.put(shelf, whole, LAST));
};

export const forgetParallax = (): Promise<void> =>
  withDatabase(open, (database) => database.delete(shelf, LAST));
