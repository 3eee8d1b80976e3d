/** What follows for several prints on one lens sheet: its ribs, how prints lie on them, what is woven. */
import type { GangGrid } from '../../core/sheet/gang/gang-grid.ts';
import { gangGrid, oddRibs, wholeUm } from '../../core/sheet/gang/gang-grid.ts';
import type { GangLayout } from '../../core/sheet/gang/gang-layout.ts';
import { gangLayouts } from '../../core/sheet/gang/gang-layout.ts';
import type { GangPlan, GangSpec } from '../../core/sheet/gang/gang-spec.ts';
import { gangSpecOf } from '../../core/sheet/gang/gang-spec.ts';
import { trimmed } from '../../core/units/format.ts';
import { mmToLpi } from '../../core/units/units.ts';
import type { Gang } from '../schema/gang.ts';
import type { Job } from '../schema/job.ts';
import { layOnPage, pageOf } from './page.ts';
import { acrossMm, pitchStanding, sheetSpecOf, viewingPitchOf } from './sheet.ts';
import { printedLensPitch } from './tiles.ts';

/** Room for a rail at each edge, and a blade's way between prints (ours, no source). */
export const gangOf = (job: Job): Gang =>
  job.gang ?? {
    on: false,
    lensAcrossMm: 300,
    lensAlongMm: 400,
    edgeMm: 8,
    gapMm: 3,
    between: 'lines',
  };

/** Changes some settings of the lens sheet; undefined leaves a field out. */
export const setGang = (job: Job, change: { [K in keyof Gang]?: Gang[K] | undefined }): Job => ({
  ...job,
  gang: Object.fromEntries(
    Object.entries({ ...gangOf(job), ...change }).filter(([, value]) => value !== undefined),
  ) as Gang,
});

/** At most so much of the picture goes on past the cut, and never more than a third of the gap. */
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

/** Its length along the ribs. */
const alongMmOf = (job: Job): number =>
  job.ribs === 'upright' ? job.print.heightMm : job.print.widthMm;

/**
 * The job as it lies on the host's lens: cut to an odd number of whole ribs, each of them woven at the
 * woven pitch of its own distance. It is one and the same lens, so the host's pitch holds for all.
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
    alongMm: alongMmOf(job),
    copies,
  };
};

export interface GangView {
  readonly grid: GangGrid;
  readonly members: readonly GangMember[];
  /** Best first; never none. */
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

/** @param guests the other jobs on the lens sheet, by id, as far as they could be read. */
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

/** Why a job cannot lie under the lens of another, as a clause; undefined where it can. */
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

/** Guests that are not among the kept jobs, each as a sentence can name it. */
export const absentGuests = (job: Job, isKept: (jobId: string) => boolean): string[] =>
  (gangOf(job).guests ?? [])
    .filter(({ jobId }) => !isKept(jobId))
    .map(({ name }) => (name === undefined || name === '' ? 'a job without a name' : `“${name}”`));

/** The guests by the names that their jobs have now, as far as those are kept. */
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

/** The job's paper with the lens sheet in the middle of what can be printed; undefined: no page is on. */
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

/** By how much the lens sheet reaches into the paper's blank margins or past it; 0: it does not. */
export const gangOffPaperMm = (job: Job): number => {
  const paper = gangPaperOf(job);
  if (paper === undefined) return 0;
  const { left, top } = pageOf(job).marginsMm;
  // It lies in the middle, so what is too far is too far on both sides.
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
