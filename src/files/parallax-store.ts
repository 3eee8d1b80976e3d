/** The last parallax measured to the end, kept on this computer so that softening survives a reload. */
import { openDB } from 'idb';
import * as v from 'valibot';
import type { WholeParallax } from '../job/facts/parallax.ts';

const shelf = 'measured';
const LAST = 'last';

const open = () =>
  openDB('tiltloom-parallax', 1, {
    upgrade: (database) => {
      database.createObjectStore(shelf);
    },
  });

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

/** Undefined when there is none, or none that can be read: then it is measured again. */
export const loadParallax = async (): Promise<WholeParallax | undefined> => {
  const database = await open();
  try {
    const checked = v.safeParse(keptSchema, await database.get(shelf, LAST));
    return checked.success ? checked.output : undefined;
  } finally {
    database.close();
  }
};

/** Takes the place of what was kept. Rejects with what the browser said when it could not be kept. */
export const keepParallax = async (whole: WholeParallax): Promise<void> => {
  const database = await open();
  try {
    await database.put(shelf, whole, LAST);
  } finally {
    database.close();
  }
};

/** It can be measured again. */
export const forgetParallax = async (): Promise<void> => {
  const database = await open();
  try {
    await database.delete(shelf, LAST);
  } finally {
    database.close();
  }
};
