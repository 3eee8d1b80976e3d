/** Several prints on one lens sheet: what the job says of them, its ribs, and each print cut to whole ribs. */
import { nameInText } from '../../core/names/shown.ts';
import type { GangGrid } from '../../core/sheet/gang/gang-grid.ts';
import { gangGrid, oddRibs } from '../../core/sheet/gang/gang-grid.ts';
import type { ChangeOf } from '../schema/changed.ts';
import { changed } from '../schema/changed.ts';
import type { Gang } from '../schema/gang.ts';
import type { Job } from '../schema/job.ts';
import { pageOf } from './page.ts';
import { alongMm } from './plan.ts';
import { acrossMm, printedLensPitch, viewingPitchOf } from './sheet.ts';
import { gridOf } from './printer.ts';

/** The free edge has room for a rail, the gap for a blade (ours, no source). */
export const gangOf = (job: Job): Gang =>
  job.gang ?? {
    on: false,
    lensAcrossMm: 300,
    lensAlongMm: 400,
    edgeMm: 8,
    gapMm: 3,
    between: 'lines',
  };

export const setGang = (job: Job, change: ChangeOf<Gang>): Job => ({
  ...job,
  gang: changed(gangOf(job), change),
});

/** The bleed past a cut is at most this, and at most a third of the gap. */
const MOST_BLEED_MM = 2;
const bleedOf = ({ between, gapMm }: Gang): number =>
  between === 'picture' ? Math.min(MOST_BLEED_MM, gapMm / 3) : 0;

/** The open job's id among the prints on its lens sheet. */
export const OWN = 'own';

/** One job on the lens sheet. */
export interface GangMember {
  /** `OWN`, or the kept job's id. */
  readonly id: string;
  readonly name: string;
  /** The job as it is woven here: as wide as its whole ribs, by the pitch of this lens. */
  readonly job: Job;
  readonly ribs: number;
  readonly alongMm: number;
  readonly copies: number | 'fill';
}

/**
 * The job as it lies on the host's lens sheet: cut to an odd number of whole ribs, at the woven pitch for its
 * own viewing distance. The host's lens pitch holds for all, since they share the lens sheet.
 */
export const asMember = (id: string, job: Job, copies: number | 'fill', host: Job): GangMember => {
  const { provedPitch: _own, ...rest } = job;
  const laid: Job = {
    ...rest,
    lens: host.lens,
    printer: host.printer,
    ...(host.provedPitch === undefined ? {} : { provedPitch: host.provedPitch }),
    page: { ...pageOf(job), on: true, bleedMm: bleedOf(gangOf(host)) },
  };
  const ribs = oddRibs(acrossMm(job), printedLensPitch(host));
  const wovenMm = ribs * viewingPitchOf(laid);
  const side = job.ribs === 'upright' ? 'widthMm' : 'heightMm';
  return {
    id,
    name: job.name,
    job: { ...laid, print: { ...job.print, [side]: wovenMm } },
    ribs,
    alongMm: alongMm(job),
    copies,
  };
};

/** The ribs of the lens sheet that prints may take. */
export const gangGridOf = (job: Job): GangGrid => {
  const { lensAcrossMm, lensAlongMm, edgeMm, gapMm } = gangOf(job);
  const pitchMm = printedLensPitch(job);
  return gangGrid({ acrossMm: lensAcrossMm, alongMm: lensAlongMm, edgeMm, gapMm, pitchMm });
};

export const ownMember = (job: Job): GangMember =>
  asMember(OWN, job, gangOf(job).copies ?? 'fill', job);

const near = (a: number, b: number, share: number) => Math.abs(a / b - 1) <= share;

/** A clause that says why a job cannot share the host's lens sheet; undefined if it can. */
export const differsInLens = (host: Job, job: Job): string | undefined => {
  if (!near(job.lens.pitchMm, host.lens.pitchMm, 1e-3)) return 'its lens has another pitch';
  if (!near(job.lens.thicknessMm, host.lens.thicknessMm, 0.02))
    return 'its lens has another thickness';
  if (!near(job.lens.index, host.lens.index, 0.01)) return 'its lens has another refractive index';
  if (job.ribs !== host.ribs)
    return `its ribs ${job.ribs === 'lying' ? 'lie' : 'stand'}, and this job’s do not`;
  if (
    gridOf(job).acrossDpi !== gridOf(host).acrossDpi ||
    gridOf(job).alongDpi !== gridOf(host).alongDpi
  )
    return 'it is for another printer setting';
  return undefined;
};

/** Names, for a sentence, of the guests that are not kept here. */
export const absentGuests = (job: Job, isKept: (jobId: string) => boolean): string[] =>
  (gangOf(job).guests ?? [])
    .filter(({ jobId }) => !isKept(jobId))
    .map(({ name }) =>
      name === undefined || name === '' ? 'a job without a name' : `“${nameInText(name)}”`,
    );

/** Gives each guest the present name of its job, if that is kept. */
export const withGuestNames = (job: Job, names: ReadonlyMap<string, string>): Job => {
  const guests = job.gang?.guests;
  if (guests === undefined) return job;
  const named = guests.map((guest) => {
    const name = names.get(guest.jobId)?.slice(0, 200);
    return name === undefined ? guest : { ...guest, name };
  });
  return setGang(job, { guests: named });
};

/** Width and height of the lens sheet as the file shows it. */
export const gangSizeMm = (job: Job): readonly [widthMm: number, heightMm: number] => {
  const { lensAcrossMm, lensAlongMm } = gangOf(job);
  return job.ribs === 'upright' ? [lensAcrossMm, lensAlongMm] : [lensAlongMm, lensAcrossMm];
};
