/** The printer profile that a job uses, in its file: in the list itself, so that an earlier studio opens the file too. */
import type { Job } from '../job/schema/job.ts';
import type { Manifest } from './bundle.ts';

export interface CarriedProfile {
  readonly id: string;
  readonly name: string;
  readonly file: Blob;
}

/** The list must stay within `BundleLimits.jsonBytes`; a larger profile is left out. */
export const MOST_CARRIED_BYTES = 8 * 2 ** 20;

/** A multiple of three, so that pieces set end to end are one text (RFC 4648, 4). */
const PIECE_BYTES = 24_576;

export const listedProfile = async ({ id, name, file }: CarriedProfile) => {
  const bytes = new Uint8Array(await file.arrayBuffer());
  const pieces: string[] = [];
  for (let at = 0; at < bytes.length; at += PIECE_BYTES)
    pieces.push(btoa(String.fromCharCode(...bytes.subarray(at, at + PIECE_BYTES))));
  return { id, name, base64: pieces.join('') };
};

/** Undefined where the file has none that the job names, or it cannot be read: the job opens without. */
export const carriedProfile = (
  { profiles = [] }: Pick<Manifest, 'profiles'>,
  { colour }: Pick<Job, 'colour'>,
): CarriedProfile | undefined => {
  const listed = profiles.find(({ id }) => id === colour?.profileId);
  if (listed === undefined) return undefined;
  try {
    const bytes = Uint8Array.from(atob(listed.base64), (letter) => letter.charCodeAt(0));
    return { id: listed.id, name: listed.name, file: new Blob([bytes]) };
  } catch {
    return undefined;
  }
};
