/** Readings of earlier strips on this computer: which of them speak of a job, and what they say. */
import * as v from 'valibot';
import { opticalGap, viewingPitchAt } from '../../core/lens/lens.ts';
import { mm, mmToLpi } from '../../core/units/units.ts';
import type { Job } from '../schema/job.ts';
import { lensSchema } from '../schema/lens.ts';
import { provedPitchSchema } from '../schema/pitch.ts';
import { lensOf } from './sheet.ts';

/** One proved pitch with all that it holds for. */
export const keptReadingSchema = v.object({
  lens: v.pick(lensSchema, ['pitchMm', 'thicknessMm', 'index']),
  acrossDpi: v.number(),
  ribs: v.picklist(['upright', 'lying']),
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
        acrossDpi: job.printer.acrossDpi,
        ribs: job.ribs,
        proved: job.provedPitch,
      };

/** Typed numbers that were meant to be the same. */
const same = (a: number, b: number) => Math.abs(a - b) <= 1e-6 * Math.abs(a);

/**
 * Readings for the job's lens, printer setting and way round, newest first. A job that names its paper
 * is answered for that paper alone.
 */
export const readingsFor = (job: Job, kept: readonly KeptReading[]): KeptReading[] => {
  const paper = job.pitchStrip?.paperKind;
  return kept
    .filter(
      ({ lens, acrossDpi, ribs, proved }) =>
        same(lens.pitchMm, job.lens.pitchMm) &&
        same(lens.thicknessMm, job.lens.thicknessMm) &&
        same(lens.index, job.lens.index) &&
        same(acrossDpi, job.printer.acrossDpi) &&
        ribs === job.ribs &&
        (paper === undefined || paper === '' || proved.paper === paper),
    )
    .sort((a, b) => (b.proved.readOn ?? '').localeCompare(a.proved.readOn ?? ''));
};

/** True while a reading for the one job is a reading for the other. */
const sameCombination = (a: Job, b: Job): boolean =>
  same(a.lens.pitchMm, b.lens.pitchMm) &&
  same(a.lens.thicknessMm, b.lens.thicknessMm) &&
  same(a.lens.index, b.lens.index) &&
  same(a.printer.acrossDpi, b.printer.acrossDpi) &&
  a.ribs === b.ribs &&
  a.pitchStrip?.paperKind === b.pitchStrip?.paperKind;

/**
 * A job that has just come to a lens, printer setting and way round for which a strip was read takes
 * the newest reading. Only then: a pitch that the person let go of is not pressed on them again.
 */
export const recallPitch = (before: Job, after: Job, kept: readonly KeptReading[]): Job => {
  if (after.provedPitch !== undefined || sameCombination(before, after)) return after;
  const [newest] = readingsFor(after, kept);
  if (newest === undefined) return after;
  return { ...after, provedPitch: { ...newest.proved, recalled: true } };
};

/** A reading as lines to the inch at the job's viewing distance (relation 2). */
export const lpiAtJob = (job: Job, { proved }: KeptReading): number =>
  mmToLpi(
    viewingPitchAt(
      mm(proved.viewingPitchMm),
      opticalGap(lensOf(job)),
      mm(proved.readFromMm),
      mm(job.print.viewingDistanceMm),
    ),
  );

/** Mean of the readings, and their standard deviation from two on. */
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
