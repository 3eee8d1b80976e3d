/** Words and figures of the list of jobs. */
import { messageOf } from '../../contract/errors.ts';
import { formatLengthRough, sayBytes, trimmed } from '../../core/units/format.ts';
import type { LengthUnit } from '../../core/units/parse.ts';
import { mm, mmToLpi } from '../../core/units/units.ts';
import { isNoRoom } from '../../files/room.ts';
import type { KeptJobEntry } from '../../files/job-store.ts';

export const sayWhen = (at: number): string =>
  new Date(at).toLocaleString('en-GB', { dateStyle: 'medium', timeStyle: 'short' });

/** Why something was not done. On a full disk the browser's own message does not say what to do. */
export const sayFault = (error: unknown): string => {
  if (isNoRoom(error))
    return 'There is no room left on the browser’s disk, so that was not done. All that was kept is whole: free some room below, then try again.';
  return messageOf(error);
};

const bytesOf = (pictures: KeptJobEntry['pictures']): number =>
  pictures.reduce((sum, { byteLength }) => sum + byteLength, 0);

export const sayFrames = ({ frameCount, pictures }: KeptJobEntry): string =>
  frameCount === 0
    ? 'no frames yet'
    : `${frameCount} ${frameCount === 1 ? 'frame' : 'frames'} · ${sayBytes(bytesOf(pictures))}`;

export const sayLens = ({ lens, print }: KeptJobEntry, units: LengthUnit): string =>
  `${trimmed(mmToLpi(mm(lens.pitchMm)), 2)} LPI · ` +
  `${formatLengthRough(mm(print.widthMm), units)} × ${formatLengthRough(mm(print.heightMm), units)} ${units}`;

/** Disk space that only this job uses: deleting it for good frees that much. */
export const ownBytes = (job: KeptJobEntry, all: readonly KeptJobEntry[]): number => {
  const others = new Set(
    all.filter(({ id }) => id !== job.id).flatMap(({ pictures }) => pictures.map(({ id }) => id)),
  );
  return bytesOf(job.pictures.filter(({ id }) => !others.has(id)));
};
