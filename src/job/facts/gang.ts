/** Several prints on one lens sheet: its ribs, how the prints lie on them, and what is woven. */
import { nameInText } from '../../core/names/shown.ts';
import type { GangGrid } from '../../core/sheet/gang/gang-grid.ts';
import { gangGrid, oddRibs, wholeUm } from '../../core/sheet/gang/gang-grid.ts';
import type { GangLayout } from '../../core/sheet/gang/gang-layout.ts';
import { gangLayouts } from '../../core/sheet/gang/gang-layout.ts';
import type { GangPlan, GangSpec } from '../../core/sheet/gang/gang-spec.ts';
import { gangSpecOf } from '../../core/sheet/gang/gang-spec.ts';
import { trimmed } from '../../core/units/format.ts';
import { mmToLpi } from '../../core/units/units.ts';
import type { ChangeOf } from '../schema/changed.ts';
import { changed } from '../schema/changed.ts';
import type { Gang } from '../schema/gang.ts';
import type { Job } from '../schema/job.ts';
import { layOnPage, pageOf } from './page.ts';
import { alongMm } from './plan.ts';
import { acrossMm, pitchStanding, printedLensPitch, sheetSpecOf, viewingPitchOf } from './sheet.ts';

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
const asMember = (id: string, job: Job, copies: number | 'fill', host: Job): GangMember => {
  const { provedPitch: _own, ...rest } = job;
  const laid: Job = {
    ...rest,
    lens: host.lens,
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

export interface GangView {
  readonly grid: GangGrid;
  readonly members: readonly GangMember[];
  /** At least one, the best first. */
  readonly layouts: readonly GangLayout[];
  readonly best: GangLayout;
}

/** The ribs of the lens sheet that prints may take. */
export const gangGridOf = (job: Job): GangGrid => {
  const { lensAcrossMm, lensAlongMm, edgeMm, gapMm } = gangOf(job);
  const pitchMm = printedLensPitch(job);
  return gangGrid({ acrossMm: lensAcrossMm, alongMm: lensAlongMm, edgeMm, gapMm, pitchMm });
};

export const ownMember = (job: Job): GangMember =>
  asMember(OWN, job, gangOf(job).copies ?? 'fill', job);

/** @param guests the other jobs on the lens sheet that could be read, by id. */
export const gangViewOf = (job: Job, guests: ReadonlyMap<string, Job> = new Map()): GangView => {
  const grid = gangGridOf(job);
  const members = [
    ownMember(job),
    ...(gangOf(job).guests ?? []).flatMap(({ jobId, copies }) => {
      const guest = guests.get(jobId);
      return guest === undefined || differsInLens(job, guest) !== undefined
        ? []
        : [asMember(jobId, guest, copies, job)];
    }),
  ];
  const wants = members.map(({ id, ribs, alongMm, copies }) => {
    return { id, ribs, alongUm: wholeUm(alongMm), copies };
  });
  const layouts = gangLayouts(grid, wants);
  return { grid, members, layouts, best: layouts[0] as GangLayout };
};

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
    job.printer.acrossDpi !== host.printer.acrossDpi ||
    job.printer.alongDpi !== host.printer.alongDpi
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

/** How many of a member lie on the sheet. */
export const laidOf = ({ best }: GangView, id: string): number =>
  best.places.filter((place) => place.id === id).length;

/** Width and height of the lens sheet as the file shows it. */
export const gangSizeMm = (job: Job): readonly [widthMm: number, heightMm: number] => {
  const { lensAcrossMm, lensAlongMm } = gangOf(job);
  return job.ribs === 'upright' ? [lensAcrossMm, lensAlongMm] : [lensAlongMm, lensAcrossMm];
};

/** The job's paper, with the lens sheet in the middle of its printable area; undefined while the page is off. */
export const gangPaperOf = (job: Job): GangPlan['paper'] => {
  const page = pageOf(job);
  if (!page.on) return undefined;
  const [widthMm, heightMm] = gangSizeMm(job);
  const { place: _place, ...bare } = page;
  const plan = layOnPage(
    { ...bare, bleedMm: 0, rails: false, marks: false, label: false, bar: false },
    { widthMm, heightMm, label: [] },
  );
  return {
    widthMm: plan.paperWidthMm,
    heightMm: plan.paperHeightMm,
    leftMm: plan.leftMm,
    topMm: plan.topMm,
  };
};

/** How far the lens sheet reaches into the printer margin or past the paper; 0: it fits. */
export const gangOffPaperMm = (job: Job): number => {
  const paper = gangPaperOf(job);
  if (paper === undefined) return 0;
  const { left, top } = pageOf(job).marginsMm;
  // The lens sheet lies in the middle, so both sides reach equally far.
  return Math.max(0, left - paper.leftMm, top - paper.topMm);
};

const labelOf = (job: Job, { best }: GangView, date: string): string =>
  `${job.name}, ${best.places.length} prints, ${trimmed(mmToLpi(viewingPitchOf(job)), 3)} LPI ` +
  `${pitchStanding(job)}, from ${trimmed(job.print.viewingDistanceMm, 0)} mm, ${date}. ` +
  'Print at 100 %, no scaling.';

/** Members of which at least one print lies on the sheet. */
export const membersLaid = (view: GangView): readonly GangMember[] =>
  view.members.filter(({ id }) => laidOf(view, id) > 0);

/** What is woven. A print's `stack` is its member's place in `membersLaid`. */
export const gangToWeave = (job: Job, view: GangView, date: string): GangSpec => {
  const paper = gangPaperOf(job);
  return gangSpecOf({
    grid: view.grid,
    layout: view.best,
    prints: new Map(
      membersLaid(view).map((member, stack) => [
        member.id,
        { sheet: sheetSpecOf(member.job), stack },
      ]),
    ),
    ribs: job.ribs,
    acrossDpi: job.printer.acrossDpi,
    alongDpi: job.printer.alongDpi,
    viewingPitchMm: viewingPitchOf(job),
    label: labelOf(job, view, date),
    ...(paper === undefined ? {} : { paper }),
  });
};
