/** Readings of earlier strips on this computer: which of them hold for a job, and what they say. */
import * as v from 'valibot';
import { viewingPitchAt } from '../../core/lens/traced.ts';
import { mm, mmToLpi } from '../../core/units/units.ts';
import type { Job } from '../schema/job.ts';
import { lensSchema } from '../schema/lens.ts';
import { provedPitchSchema } from '../schema/pitch.ts';
import { lensOf } from './sheet.ts';
import { axisOfStrip, gridOf } from './printer.ts';

/**
 * A proved pitch with the lens, printer setting and axis of the printer for which it holds. Readings kept before the axis
 * was noted have the one of a page with its top edge first.
 */
export const keptReadingSchema = v.object({
  lens: v.pick(lensSchema, ['pitchMm', 'thicknessMm', 'index']),
  acrossDpi: v.number(),
  ribs: v.picklist(['upright', 'lying']),
  axis: v.optional(v.picklist(['carriage', 'feed'])),
  proved: provedPitchSchema,
});
export type KeptReading = v.InferOutput<typeof keptReadingSchema>;

export const keptReadingOf = (job: Job): KeptReading | undefined =>
  job.provedPitch === undefined
    ? undefined
    : {
        lens: {
          pitchMm: job.lens.pitchMm,
          thicknessMm: job.lens.thicknessMm,
          index: job.lens.index,
        },
        acrossDpi: gridOf(job).acrossDpi,
        ribs: job.ribs,
        axis: gridOf(job).axis,
        proved: job.provedPitch,
      };

/** Equal but for rounding, as two typings of one number are. */
const same = (a: number, b: number) => Math.abs(a - b) <= 1e-6 * Math.abs(a);

type Setting = Pick<KeptReading, 'lens' | 'acrossDpi' | 'ribs' | 'axis'>;

const settingOf = (job: Job): Setting => {
  const { acrossDpi, axis } = gridOf(job);
  return { lens: job.lens, acrossDpi, ribs: job.ribs, axis };
};

const sameLens = (a: Setting, b: Setting): boolean =>
  same(a.lens.pitchMm, b.lens.pitchMm) &&
  same(a.lens.thicknessMm, b.lens.thicknessMm) &&
  same(a.lens.index, b.lens.index);

const axisOf = ({ axis, ribs }: Setting) => axisOfStrip(axis, ribs);

const sameSetting = (a: Setting, b: Setting): boolean =>
  sameLens(a, b) && same(a.acrossDpi, b.acrossDpi) && axisOf(a) === axisOf(b);

/** On the job's paper, if it names one; the newest first. */
const newestOf = (job: Job, readings: readonly KeptReading[]): KeptReading[] => {
  const paper = job.pitchStrip?.paperKind;
  return readings
    .filter(({ proved }) => paper === undefined || paper === '' || proved.paper === paper)
    .sort((a, b) => (b.proved.readOn ?? '').localeCompare(a.proved.readOn ?? ''));
};

/**
 * Readings for the job's lens, printer setting and axis of the printer, newest first. If the job names its paper,
 * only readings on that paper count.
 */
export const readingsFor = (job: Job, kept: readonly KeptReading[]): KeptReading[] =>
  newestOf(
    job,
    kept.filter((reading) => sameSetting(reading, settingOf(job))),
  );

/** Readings for the job's lens that hold along the printer's other axis only, newest first. */
export const readingsAcross = (job: Job, kept: readonly KeptReading[]): KeptReading[] => {
  const setting = settingOf(job);
  return newestOf(
    job,
    kept.filter((reading) => sameLens(reading, setting) && axisOf(reading) !== axisOf(setting)),
  );
};

/**
 * A job that changes to a lens, printer setting, axis or paper with a reading takes the newest one. Only
 * such a change recalls a pitch: one that the person removed does not come back by itself.
 */
export const recallPitch = (before: Job, after: Job, kept: readonly KeptReading[]): Job => {
  const isSame =
    sameSetting(settingOf(before), settingOf(after)) &&
    before.pitchStrip?.paperKind === after.pitchStrip?.paperKind;
  if (after.provedPitch !== undefined || isSame) return after;
  const [newest] = readingsFor(after, kept);
  if (newest === undefined) return after;
  return { ...after, provedPitch: { ...newest.proved, recalled: true } };
};

/** The pitch of a reading in LPI, at the job's viewing distance (relation 2). */
export const lpiAtJob = (job: Job, { proved }: KeptReading): number =>
  mmToLpi(
    viewingPitchAt(
      lensOf(job),
      mm(proved.viewingPitchMm),
      mm(proved.readFromMm),
      mm(job.print.viewingDistanceMm),
    ),
  );

/** Mean of the readings, and their standard deviation if there are at least two. */
export const spreadOf = (
  lpis: readonly number[],
): { readonly meanLpi: number; readonly deviationLpi: number | undefined } => {
  const meanLpi = lpis.reduce((sum, one) => sum + one, 0) / lpis.length;
  const squares = lpis.reduce((sum, one) => sum + (one - meanLpi) ** 2, 0);
  return {
    meanLpi,
    deviationLpi: lpis.length < 2 ? undefined : Math.sqrt(squares / (lpis.length - 1)),
  };
};

export const takeReading = (job: Job, { proved }: KeptReading): Job => ({
  ...job,
  provedPitch: proved,
});
