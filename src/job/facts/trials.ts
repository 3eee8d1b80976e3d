/** The log of prints: what was made, seen and changed, and what the history shows. */
import { trimmed } from '../../core/units/format.ts';
import { MM_PER_INCH } from '../../core/units/units.ts';
import type { ChangeOf } from '../schema/changed.ts';
import type { Job } from '../schema/job.ts';
import type { Diagnosis } from './mend.ts';
import { forgetSeeing, printedNow, seeingOf } from './mend.ts';
import type { Trial } from '../schema/trial.ts';
import { MOST_TRIALS } from '../schema/trial.ts';

export const trialsOf = (job: Job): readonly Trial[] => job.trials ?? [];

const withTrials = (job: Job, trials: readonly Trial[]): Job => {
  const { trials: _before, ...rest } = job;
  return trials.length === 0 ? rest : { ...rest, trials: [...trials] };
};

/** What the person adds to a trial. */
export interface TrialNotes {
  readonly id: string;
  /** ISO date. */
  readonly on: string;
  readonly file?: string | undefined;
  readonly note?: string | undefined;
  readonly cost?: number | undefined;
  readonly photoId?: string | undefined;
}

const withoutEmpty = (fields: object): Partial<Trial> =>
  Object.fromEntries(
    Object.entries(fields).filter(([, value]) => value !== undefined && value !== ''),
  );

/** Adds a trial. A full log drops its oldest one. */
const appended = (job: Job, trial: Trial): Job =>
  withTrials(job, [...trialsOf(job).slice(1 - MOST_TRIALS), trial]);

/** Logs a print that came out well. */
export const addGoodTrial = (job: Job, notes: TrialNotes): Job =>
  appended(forgetSeeing(job), {
    ...withoutEmpty(notes),
    id: notes.id,
    on: notes.on,
    printed: job.seeing?.printed ?? printedNow(job),
    outcome: 'good',
    chosen: [],
    counts: {},
    found: [],
    changed: [],
  });

/** Logs the print on the table and clears what was seen of it, for the next print. */
export const addFailedTrial = (
  job: Job,
  { reading }: Diagnosis,
  says: { readonly found: readonly string[]; readonly changed: readonly string[] },
  notes: TrialNotes,
): Job => {
  const { chosen, counts, printed } = seeingOf(job);
  const { pitch, skew } = reading;
  return appended(forgetSeeing(job), {
    ...withoutEmpty(notes),
    id: notes.id,
    on: notes.on,
    printed,
    outcome: 'failed',
    chosen,
    counts,
    found: [...says.found],
    changed: [...says.changed],
    ...(pitch === undefined || pitch.orLpi !== undefined ? {} : { bandsAcross: pitch.bands.value }),
    ...(skew?.signKnown === true ? { bandsAlong: skew.bands.value } : {}),
  });
};

export const setTrial = (
  job: Job,
  id: string,
  change: ChangeOf<Pick<Trial, 'note' | 'cost' | 'photoId' | 'outcome'>>,
): Job =>
  withTrials(
    job,
    trialsOf(job).map((trial) =>
      trial.id === id ? (withoutEmpty({ ...trial, ...change }) as Trial) : trial,
    ),
  );

export const removeTrial = (job: Job, id: string): Job =>
  withTrials(
    job,
    trialsOf(job).filter((trial) => trial.id !== id),
  );

/** The pitch that would have suited a trial, for the distance it was woven for, LPI. */
export const suitedLpi = ({ printed, bandsAcross }: Trial): number | undefined => {
  if (bandsAcross === undefined) return undefined;
  const acrossMm = printed.ribs === 'upright' ? printed.widthMm : printed.heightMm;
  return MM_PER_INCH / printed.viewingPitchMm - (bandsAcross * MM_PER_INCH) / acrossMm;
};

export interface HistoryFinding {
  readonly id: string;
  readonly title: string;
  readonly figure: string;
  readonly remedy: string;
}

/** Something is a habit after this many prints (ours). */
const HABIT = 3;

/** What repeats itself over the trials. Figures are of those trials alone. */
export const historyFindings = (job: Job): HistoryFinding[] => {
  const failed = trialsOf(job).filter(({ outcome }) => outcome === 'failed');
  const found = [driftOf(failed), leanOf(failed), ...sameCause(failed), spentOf(job)];
  return found.filter((one) => one !== undefined);
};

/** The suited pitch keeps changing in one direction, or jumps about. */
const driftOf = (failed: readonly Trial[]): HistoryFinding | undefined => {
  const suited = failed.flatMap((trial) => suitedLpi(trial) ?? []).slice(-5);
  if (suited.length < HABIT) return undefined;
  const steps = suited.slice(1).map((one, i) => one - (suited[i] as number));
  const spread = Math.max(...suited) - Math.min(...suited);
  const mean = suited.reduce((sum, one) => sum + one, 0) / suited.length;
  // A tenth of a percent: what paper, ink and driver each do (common practice, no source).
  if (spread < mean * 1e-3) return undefined;
  const oneWay = steps.every((step) => step > 0) || steps.every((step) => step < 0);
  return {
    id: 'pitch-drifts',
    title: oneWay
      ? `${suited.length} prints, and the pitch that suits drifts`
      : `${suited.length} prints, and each wants another pitch`,
    figure: `${trimmed(Math.min(...suited), 3)} to ${trimmed(Math.max(...suited), 3)} LPI`,
    remedy:
      'Paper takes up and gives off moisture, and stretches by it. Let it rest in the room as long as its supplier says (a day is common practice, no source), print and mount at the same humidity, and let every print dry as long.',
  };
};

/** Prints repeatedly lie turned under their lens. */
const leanOf = (failed: readonly Trial[]): HistoryFinding | undefined => {
  const along = failed.flatMap(({ bandsAlong }) => bandsAlong ?? []).slice(-5);
  if (along.length < HABIT || along.some((bands) => Math.abs(bands) < 0.5)) return undefined;
  const oneWay = along.every((bands) => bands > 0) || along.every((bands) => bands < 0);
  return {
    id: 'skew-repeats',
    title: oneWay
      ? `${along.length} prints lie askew the same way`
      : `${along.length} prints lie askew`,
    figure: along.map((bands) => trimmed(bands, 2)).join(', ') + ' bands along the ribs',
    remedy: oneWay
      ? 'Something turns them: a stop that is not square, or ribs that are not parallel to the lens’s cut edge. Square on the rails, not on the edge.'
      : 'Use the rails beside the print: they show a skew before the lens is tacked.',
  };
};

const sameCause = (failed: readonly Trial[]): HistoryFinding[] => {
  const last = failed.slice(-HABIT);
  const again = ['two-at-once', 'one-place', 'resampled', 'sharpened', 'out-of-step'] as const;
  if (last.length < HABIT) return [];
  return again
    .filter((id) => last.every(({ chosen }) => chosen.includes(id)))
    .map((id) => ({
      id: `again-${id}`,
      title: `The last ${HABIT} prints failed alike`,
      figure: `${HABIT} of ${HABIT}`,
      remedy:
        'What was changed between them did not touch it. Change one thing at a time, on a strip of the print under a scrap of lens, before another sheet.',
    }));
};

/** What the trials have cost, as far as costs were typed. */
const spentOf = (job: Job): HistoryFinding | undefined => {
  const costs = trialsOf(job).flatMap(({ cost }) => cost ?? []);
  const bad = trialsOf(job).filter(({ outcome }) => outcome === 'failed').length;
  if (costs.length === 0 || bad === 0) return undefined;
  const spent = costs.reduce((sum, cost) => sum + cost, 0);
  return {
    id: 'spent',
    title: `${bad} of ${trialsOf(job).length} prints thrown away`,
    figure: `${trimmed(spent, 2)} spent`,
    remedy:
      'A strip of the print on a scrap of lens costs a fraction of a sheet: test cures on it.',
  };
};
