/** The numbers of the plan: the job's optional ones with their defaults, and what follows from them. */
import { evenWidth, spot } from '../../core/lens/spot.ts';
import type { Standing } from '../../core/lens/focus.ts';
import { standing } from '../../core/lens/focus.ts';
import type { DepthSetting } from '../../core/plan/depth.ts';
import { EYES_APART_MM } from '../../core/plan/depth.ts';
import type { Fit, Printing } from '../../core/plan/fit.ts';
import { crosstalk, fit, framesToldApart, ownShare } from '../../core/plan/fit.ts';
import type { Tolerance } from '../../core/plan/tolerance.ts';
import { tolerance } from '../../core/plan/tolerance.ts';
import type { Mm } from '../../core/units/units.ts';
import { dpi, mm, rad } from '../../core/units/units.ts';
import type { DepthMark, Exactness, Job } from '../schema/job.ts';
import { acrossMm, lensOf } from './sheet.ts';
import { gridOf } from './printer.ts';

export const depthGainOf = (job: Job): number => job.depthGain ?? 1;
export const eyesApartOf = (job: Job): Mm => mm(job.eyesApartMm ?? EYES_APART_MM);
export const depthMarksOf = (job: Job): readonly DepthMark[] => job.depthMarks ?? [];

/** A slide of a quarter zone is barely visible; a nominal pitch is often off by 0.1 LPI (ours, no source). */
export const usualExactness: Exactness = {
  budgetZones: 0.25,
  pitchUnsureLpi: 0.1,
  stretchShare: 0.001,
};
export const exactnessOf = (job: Job): Exactness => job.exactness ?? usualExactness;

export const depthSettingOf = (job: Job): DepthSetting => ({
  lens: lensOf(job),
  viewSlots: job.viewSlots,
  distanceMm: mm(job.print.viewingDistanceMm),
  gain: depthGainOf(job),
});

export const printingOf = (job: Job): Printing => ({
  acrossDpi: dpi(gridOf(job).acrossDpi),
  columns: job.columns,
});

/** The print's size along its ribs. */
export const alongMm = (job: Job): Mm =>
  mm(job.ribs === 'upright' ? job.print.heightMm : job.print.widthMm);

/** How exact pitch, squareness and centring must be for this print. */
export const toleranceOf = (job: Job): Tolerance =>
  tolerance(exactnessOf(job).budgetZones, lensOf(job).pitchMm, acrossMm(job), alongMm(job));

/** What a lens does over this printer at this distance. */
export interface LensFacts extends Standing {
  readonly fit: Fit;
  readonly toldApart: number;
  /** Crosstalk at the job's view slots; see `crosstalk`. */
  readonly matrix: readonly (readonly number[])[];
  /** Mean share of the wanted view, 0 … 1. */
  readonly ownShare: number;
  /** Spot straight ahead, as an even strip and a share of the pitch. */
  readonly spotShare: number;
}

/** The last facts of each lens: verdict, fit and findings ask for them on every change. */
const workedOut = new WeakMap<
  Job['lens'],
  { readonly key: string; readonly facts: LensFacts | undefined }
>();

/** Undefined if no rib can have the job's measures. Takes a few milliseconds the first time. */
export const lensFacts = (job: Job): LensFacts | undefined => {
  const { lens, print, viewSlots, columns } = job;
  const key = `${gridOf(job).acrossDpi} ${print.viewingDistanceMm} ${viewSlots} ${columns}`;
  const known = workedOut.get(lens);
  if (known?.key === key) return known.facts;
  const facts = workOut(job);
  workedOut.set(lens, { key, facts });
  return facts;
};

const workOut = (job: Job): LensFacts | undefined => {
  const stands = standing(lensOf(job));
  if (stands === undefined) return undefined;
  const { lens } = stands;
  const distance = mm(job.print.viewingDistanceMm);
  const printing = printingOf(job);
  const matrix = crosstalk(lens, printing, job.viewSlots, distance);
  const ahead = spot(lens, { angleRad: rad(0) });
  return {
    ...stands,
    fit: fit(lens, printing.acrossDpi, distance),
    toldApart: framesToldApart(lens, printing, distance),
    spotShare: ahead === undefined ? 1 : evenWidth(ahead.rmsMm) / lens.pitchMm,
    matrix,
    ownShare: ownShare(matrix),
  };
};
