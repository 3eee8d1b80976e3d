import * as v from 'valibot';

/**
 * As `v.object`, but keeps fields that the schema does not name: a job from a newer studio that is opened and saved
 * here loses nothing. The type leaves them out, so that no code relies on them; code that changes such an object
 * spreads it.
 */
export const openObject = <const Entries extends v.ObjectEntries>(
  entries: Entries,
): v.ObjectSchema<Entries, undefined> =>
  // Except for unknown fields both work the same.
  v.looseObject(entries) as unknown as v.ObjectSchema<Entries, undefined>;
