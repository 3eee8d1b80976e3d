/** How several prints lie on one lens sheet, and what is woven: apart from what the job says, for the packing library. */
import type { GangGrid } from '../../core/sheet/gang/gang-grid.ts';
import { wholeUm } from '../../core/sheet/gang/gang-grid.ts';
import type { GangLayout } from '../../core/sheet/gang/gang-layout.ts';
import { gangLayouts } from '../../core/sheet/gang/gang-layout.ts';
import type { CropMarks } from '../../core/sheet/gang/gang-marks.ts';
import type { GangPlan, GangSpec } from '../../core/sheet/gang/gang-spec.ts';
import { edgeOf, gangSpecOf } from '../../core/sheet/gang/gang-spec.ts';
import { trimmed } from '../../core/units/format.ts';
import type { LengthUnit } from '../../core/units/parse.ts';
import { mmToLpi } from '../../core/units/units.ts';
import type { Job } from '../schema/job.ts';
import type { GangMember } from './gang.ts';
import { asMember, differsInLens, gangGridOf, gangOf, gangSizeMm, ownMember } from './gang.ts';
import { edgeWords } from '../words/printer.ts';
import { editionOf, layOnPage, pageOf, printedAround } from './page.ts';
import { pitchStanding, sheetSpecOf, viewingPitchOf } from './sheet.ts';
import { gridOf } from './printer.ts';

export interface GangView {
  readonly grid: GangGrid;
  readonly members: readonly GangMember[];
  /** At least one, the best first. */
  readonly layouts: readonly GangLayout[];
  readonly best: GangLayout;
}

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

/** How many of a member lie on the sheet. */
export const laidOf = ({ best }: GangView, id: string): number =>
  best.places.filter((place) => place.id === id).length;

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
  `${[job.name, editionOf(job)].filter((words) => words !== '').join(', ')}, ${best.places.length} prints, ${trimmed(mmToLpi(viewingPitchOf(job)), 3)} LPI ` +
  `${pitchStanding(job)}, from ${trimmed(job.print.viewingDistanceMm, 0)} mm, ${date}. ` +
  `Print at 100 %, no scaling. Arrow: top, ${edgeWords[gridOf(job).fedFirst]} fed first.`;

/** Members of which at least one print lies on the sheet. */
export const membersLaid = (view: GangView): readonly GangMember[] =>
  view.members.filter(({ id }) => laidOf(view, id) > 0);

const planOf = (job: Job, view: GangView, barIn: LengthUnit, date: string): GangPlan => {
  const paper = gangPaperOf(job);
  const { rails, marks, label, bar } = printedAround(job);
  return {
    grid: view.grid,
    layout: view.best,
    prints: new Map(
      membersLaid(view).map((member, stack) => [
        member.id,
        { sheet: sheetSpecOf(member.job), stack },
      ]),
    ),
    ribs: job.ribs,
    acrossDpi: gridOf(job).acrossDpi,
    alongDpi: gridOf(job).alongDpi,
    viewingPitchMm: viewingPitchOf(job),
    rails,
    marks,
    label: label ? labelOf(job, view, date) : '',
    ...(bar ? { barIn } : {}),
    ...(paper === undefined ? {} : { paper }),
  };
};

/** What is woven. A print's `stack` is its member's place in `membersLaid`. */
export const gangToWeave = (job: Job, view: GangView, barIn: LengthUnit, date: string): GangSpec =>
  gangSpecOf(planOf(job, view, barIn, date));

/** How many cuts find no room for a crop mark, and how many marks none for their number. */
export const cutsWithoutMark = (
  job: Job,
  view: GangView,
  barIn: LengthUnit,
): Pick<CropMarks, 'unmarked' | 'unnumbered'> =>
  edgeOf(planOf(job, view, barIn, '0000-00-00')).marks;
