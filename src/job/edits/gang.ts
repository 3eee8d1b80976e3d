/** Changes to several prints on one lens sheet, each a step to undo. */
import { gangOf, setGang } from '../facts/gang.ts';
import type { JobEdit } from './edit.ts';
import { editsOf } from './edit.ts';

export const changeGang = editsOf('gang', setGang);

/** Sets the copies and the name of another job of this lens. Undefined copies remove it. */
export const changeGuest = (jobId: string, copies: number | undefined, name?: string): JobEdit => [
  'another job’s copies',
  (job) => {
    const guests = gangOf(job).guests ?? [];
    const others = guests.filter((guest) => guest.jobId !== jobId);
    const at = guests.findIndex((guest) => guest.jobId === jobId);
    const place = at < 0 ? others.length : at;
    const next =
      copies === undefined
        ? others
        : [
            ...others.slice(0, place),
            { ...guests[at], jobId, copies, ...(name === undefined ? {} : { name }) },
            ...others.slice(place),
          ];
    return setGang(job, { guests: next.length === 0 ? undefined : next });
  },
  `gang.guest.${jobId}`,
];

/** Replaces a job that is not kept here with one that is. */
export const replaceGuest = (absentId: string, jobId: string, name: string): JobEdit => [
  'another job in its place',
  (job) =>
    setGang(job, {
      guests: (gangOf(job).guests ?? []).map((guest) =>
        guest.jobId === absentId ? { ...guest, jobId, name } : guest,
      ),
    }),
];
