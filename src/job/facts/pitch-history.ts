/** Readings of earlier strips on this computer: which of them hold for a job, and what they say. */
import * as v from 'valibot';
import { viewingPitchAt } from '../../core/lens/traced.ts';
import { mm, mmToLpi } from '../../core/units/units.ts';
import type { Job } from '../schema/job.ts';
import { lensSchema } from '../schema/lens.ts';
import { provedPitchSchema } from '../schema/pitch.ts';
import { lensOf } from './sheet.ts';

/** A proved pitch with the lens, printer setting and direction of the ribs for which it holds. */
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

/** Equal but for rounding, as two typings of one number are. */
const same = (a: number, b: number) => Math.abs(a - b) <= 1e-6 * Math.abs(a);

type Setting = Pick<KeptReading, 'lens' | 'acrossDpi' | 'ribs'>;

const settingOf = ({ lens, printer, ribs }: Job): Setting => ({
  lens,
  acrossDpi: printer.acrossDpi,
  ribs,
});

const sameSetting = (a: Setting, b: Setting): boolean =>
  same(a.lens.pitchMm, b.lens.pitchMm) &&
  same(a.lens.thicknessMm, b.lens.thicknessMm) &&
  same(a.lens.index, b.lens.index) &&
  same(a.acrossDpi, b.acrossDpi) &&
  a.ribs === b.ribs;

/**
 * Readings for the job's lens, printer setting and direction of the ribs, newest first. If the job names its paper,
 * only readings on that paper count.
 */
export const readingsFor = (job: Job, kept: readonly KeptReading[]): KeptReading[] => {
  const paper = job.pitchStrip?.paperKind;
  return kept
    .filter(
      (reading) =>
        sameSetting(reading, settingOf(job)) &&
        (paper === undefined || paper === '' || reading.proved.paper === paper),
    )
    .sort((a, b) => (b.proved.readOn ?? '').localeCompare(a.proved.readOn ?? ''));
};

/**
 * A job that changes to a lens, printer setting, direction or paper with a reading takes the newest one. Only
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
