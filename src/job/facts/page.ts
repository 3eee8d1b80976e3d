/** The job's page: the paper, where the print lies on it, and what is printed around it. */
import type { PagePlan, Reach } from '../../core/sheet/page-layout.ts';
import { pageSpecOf, reachOf } from '../../core/sheet/page-layout.ts';
import type { PageSpec } from '../../core/sheet/page-spec.ts';
import type { SheetPaperName } from '../../core/sheet/papers.ts';
import { sheetPapers } from '../../core/sheet/papers.ts';
import { trimmed } from '../../core/units/format.ts';
import { mmToLpi } from '../../core/units/units.ts';
import type { ChangeOf } from '../schema/changed.ts';
import { changed } from '../schema/changed.ts';
import type { Job } from '../schema/job.ts';
import type { Page } from '../schema/page.ts';
import { edgeWords } from '../words/printer.ts';
import { gridOf } from './printer.ts';
import { pitchStanding, sheetSpecOf, viewingPitchOf } from './sheet.ts';

/** A common inkjet's margins; common practice, no source. */
const MARGIN_MM = 5;

/** The page, or the defaults: off, as in jobs from before there were pages. */
export const pageOf = (job: Job): Page =>
  job.page ?? {
    on: false,
    paper: 'a3',
    marginsMm: { left: MARGIN_MM, top: MARGIN_MM, right: MARGIN_MM, bottom: MARGIN_MM },
    bleedMm: 2,
    rails: true,
    marks: true,
    label: true,
    bar: true,
  };

export const setPage = (job: Job, change: ChangeOf<Page>): Job => ({
  ...job,
  page: changed(pageOf(job), change),
});

/** What is printed around the picture, as ticked: it holds for tiles and several prints too, whole page or not. */
export const printedAround = (job: Job): Pick<Page, 'rails' | 'marks' | 'label' | 'bar'> => {
  const { rails, marks, label, bar } = pageOf(job);
  return { rails, marks, label, bar };
};

/** "3/25": the copy of the print run that is made next; undefined where copies are not numbered. @param pieces of a copy */
export const copyNumber = (job: Job, pieces = 1): string | undefined => {
  if (pageOf(job).numbered !== true) return undefined;
  const { copies = 1, mounted = [] } = job.printRun ?? {};
  let next = 1;
  while (next < copies && mounted.filter(({ copy }) => copy === next).length >= pieces) next += 1;
  return `${next}/${copies}`;
};

/** The edition in the person's own words, and the copy's number. */
export const editionOf = (job: Job, pieces = 1): string =>
  [pageOf(job).edition ?? '', copyNumber(job, pieces) ?? '']
    .filter((words) => words !== '')
    .join(' ');

/** The label's lines. @param date left out where only the label's size matters. */
export const labelOf = (job: Job, date = '0000-00-00', pieces = 1): string[] => {
  const pitch = trimmed(mmToLpi(viewingPitchOf(job)), 3);
  const edition = editionOf(job, pieces);
  return [
    job.name,
    ...(edition === '' ? [] : [edition]),
    `${pitch} LPI ${pitchStanding(job)}, from ${trimmed(job.print.viewingDistanceMm, 0)} mm, ${date}. ` +
      `Print at 100 %, no scaling. Arrow: top of the file; fed ${edgeWords[gridOf(job).fedFirst]} first, as the strip.`,
  ];
};

const bareSize = (page: Page): readonly [width: number, height: number] => {
  if (page.paper === 'own') return [page.paperWidthMm ?? 329, page.paperHeightMm ?? 483];
  if (page.paper === 'roll') return [page.paperWidthMm ?? 610, 0];
  const [short, long] = sheetPapers[page.paper].sizeMm;
  return page.onItsSide === true ? [long, short] : [short, long];
};

/** What a page carries: the size of the print, and its words. */
interface PageLoad extends Pick<PagePlan, 'heading' | 'label'> {
  readonly widthMm: number;
  readonly heightMm: number;
}

/** Lays a print of any size on a page, in its place or in the middle. */
export const layOnPage = (
  page: Page,
  { widthMm, heightMm, ...words }: PageLoad,
  barIn: 'mm' | 'in' = 'mm',
): PagePlan => {
  const { left, top, right, bottom } = page.marginsMm;
  const [paperWidthMm, height] = bareSize(page);
  const around = {
    paperWidthMm,
    paperHeightMm: height,
    leftMm: 0,
    topMm: 0,
    trimWidthMm: widthMm,
    trimHeightMm: heightMm,
    bleedMm: page.bleedMm,
    rails: page.rails,
    marks: page.marks,
    ...words,
    ...(page.label && page.signLine === true ? { signLine: true } : {}),
    ...(page.bar ? { barIn } : {}),
  };
  const reach = reachOf(around);
  const needed = reach.top + heightMm + reach.bottom;
  const paperHeightMm = page.paper === 'roll' ? top + needed + bottom : height;
  return {
    ...around,
    paperHeightMm,
    leftMm: page.place?.leftMm ?? left + (paperWidthMm - left - right - widthMm) / 2,
    topMm: page.place?.topMm ?? top + (paperHeightMm - top - bottom - needed) / 2 + reach.top,
  };
};

/** Everything laid out, in millimetres, whether the page is on or not. */
export const pagePlanOf = (job: Job, barIn: 'mm' | 'in' = 'mm', date?: string): PagePlan => {
  const page = pageOf(job);
  const { widthMm, heightMm } = job.print;
  return layOnPage(page, { widthMm, heightMm, label: page.label ? labelOf(job, date) : [] }, barIn);
};

/** The page to weave; undefined while it is off. */
export const pageToWeave = (job: Job, barIn: 'mm' | 'in', date: string): PageSpec | undefined =>
  job.page?.on === true ? pageSpecOf(pagePlanOf(job, barIn, date), sheetSpecOf(job)) : undefined;

/** How far a reach around the trim goes past the printable area; 0 or less: it fits. */
const overhang = (plan: PagePlan, margins: Page['marginsMm'], reach: Reach): number =>
  Math.max(
    margins.left - (plan.leftMm - reach.left),
    margins.top - (plan.topMm - reach.top),
    plan.leftMm + plan.trimWidthMm + reach.right - (plan.paperWidthMm - margins.right),
    plan.topMm + plan.trimHeightMm + reach.bottom - (plan.paperHeightMm - margins.bottom),
  );

/** Millimetres past the printable area: of the picture with its bleed, and of everything printed. */
export const overhangOf = (
  job: Job,
  plan = pagePlanOf(job),
): { pictureMm: number; allMm: number } => {
  const { bleedMm } = plan;
  const { marginsMm } = pageOf(job);
  const bled = { left: bleedMm, top: bleedMm, right: bleedMm, bottom: bleedMm };
  return {
    pictureMm: overhang(plan, marginsMm, bled),
    allMm: overhang(plan, marginsMm, reachOf(plan)),
  };
};

/** Less than this is rounding to dots. */
export const ROUNDING_MM = 0.05;
export const fitsPage = (job: Job): boolean => overhangOf(job).allMm <= ROUNDING_MM;
export const pictureFitsPage = (job: Job): boolean => overhangOf(job).pictureMm <= ROUNDING_MM;

/** The smallest listed paper on which everything fits, portrait or landscape; undefined: none. */
export const smallestPaper = (job: Job): PaperChoice | undefined =>
  papersBySize().find((choice) => fitsPage(setPage(job, { ...choice, place: undefined })));

/** Papers of desktop printers, the smaller first. */
const usualPapers = { mm: ['a4', 'a3'], in: ['letter', 'tabloid'] } as const;

/** Switches the page on or off. A first page gets the smaller usual paper if everything fits on it, else the larger. */
export const switchPage = (job: Job, on: boolean, units: 'mm' | 'in'): Job => {
  if (!on || job.page !== undefined) return setPage(job, { on });
  const [small, large] = usualPapers[units];
  const onSmall = setPage(job, { on, paper: small });
  return fitsPage(onSmall) ? onSmall : setPage(job, { on, paper: large });
};

export interface PaperChoice {
  readonly paper: SheetPaperName;
  readonly onItsSide: boolean;
}

/** Every listed paper, portrait and landscape, the smallest first. */
export const papersBySize = (): PaperChoice[] =>
  (Object.keys(sheetPapers) as SheetPaperName[])
    .sort((a, b) => area(a) - area(b))
    .flatMap((paper) => [false, true].map((onItsSide) => ({ paper, onItsSide })));

const area = (paper: SheetPaperName): number => {
  const [short, long] = sheetPapers[paper].sizeMm;
  return short * long;
};
