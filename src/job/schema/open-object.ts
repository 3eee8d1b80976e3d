/** Objects of the job that keep what they do not know. */
import * as v from 'valibot';

/**
 * As `v.object`, but fields that the schema does not name stay where they are: a job that a newer
 * studio saved, opened here and saved again, has lost nothing. They are left out of the type, so that
 * no code leans on them; whoever changes such an object spreads it.
 */
export const openObject = <const Entries extends v.ObjectEntries>(
  entries: Entries,
): v.ObjectSchema<Entries, undefined> =>
  // Apart from keeping unknown fields the two work alike.
  v.looseObject(entries) as unknown as v.ObjectSchema<Entries, undefined>;
