/** The profile of a job's colours, into its file and out of it. */
import { readProfile } from '../../../calls/colour.ts';
import { nameInText } from '../../../core/names/shown.ts';
import type { CarriedProfile } from '../../../files/bundle-profile.ts';
import { MOST_CARRIED_BYTES } from '../../../files/bundle-profile.ts';
import type { Job } from '../../../job/schema/job.ts';
import type { Studio } from '../../studio.ts';

/** Undefined where the job uses none, or its bytes are not here: the job is saved without. */
export const profileToCarry = async (
  { disk }: Studio,
  { colour }: Job,
): Promise<CarriedProfile | undefined> => {
  if (colour === undefined) return undefined;
  const store = await disk.profiles();
  const file = await store.get(colour.profileId).catch(() => undefined);
  return file === undefined || file.size > MOST_CARRIED_BYTES
    ? undefined
    : { id: colour.profileId, name: colour.profile, file };
};

/**
 * Keeps the profile that came with a job, once a worker has found it good.
 * @returns a note for the person where it cannot be used; else ""
 */
export const keepCarried = async (
  { disk }: Studio,
  { colour }: Job,
  carried: CarriedProfile | undefined,
): Promise<string> => {
  if (colour === undefined) return '';
  const store = await disk.profiles();
  if ((await store.get(colour.profileId).catch(() => undefined)) !== undefined) return '';
  const gone = ` Its printer profile “${nameInText(colour.profile)}”`;
  if (carried === undefined) return `${gone} is not in the file: Weave says how to add it.`;
  try {
    const found = await readProfile(carried);
    if (!found.done || found.value.profileId !== carried.id) throw new Error('another profile');
    await store.put(carried.id, carried.file);
    return '';
  } catch {
    return `${gone} is damaged in the file: Weave says how to add it again.`;
  }
};
