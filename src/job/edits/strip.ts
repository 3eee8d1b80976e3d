/** Changes to the strip and its reading, each a step to undo. */
import type { Job } from '../schema/job.ts';
import type { PitchStrip, WovenStrip } from '../schema/pitch.ts';
import { setStrip, stripPlanOf, wovenOf } from '../facts/pitch.ts';
import { tryChange } from '../../state/change.ts';
import { viewStore } from '../../state/view.ts';

/** ISO date of today, where the person is. */
export const today = (now = new Date()): string =>
  [now.getFullYear(), now.getMonth() + 1, now.getDate()]
    .map((part) => String(part).padStart(2, '0'))
    .join('-');

type StripChange = Parameters<typeof setStrip>[1];

export const changeStrip = (label: string, change: StripChange): string | undefined =>
  tryChange(label, (job) => setStrip(job, change), `strip.${label}`);

/**
 * The strip a reading speaks of: the one woven last, else the one the fields describe. Undefined when
 * neither can be.
 */
export const stripToRead = (job: Job): WovenStrip | undefined => {
  const woven = job.pitchStrip?.woven;
  if (woven !== undefined) return woven;
  const plan = stripPlanOf(job, viewStore.getState().units);
  return plan.ok ? { ...wovenOf(job, plan.spec, today()), assumed: true } : undefined;
};

type Reading = Pick<
  { [K in keyof PitchStrip]: PitchStrip[K] | undefined },
  'measuredAcrossMm' | 'measuredAlongMm' | 'bestPlace' | 'counts'
>;

const isRead = ({ pitchStrip }: Job): boolean =>
  pitchStrip?.measuredAcrossMm !== undefined ||
  pitchStrip?.measuredAlongMm !== undefined ||
  pitchStrip?.bestPlace !== undefined ||
  (pitchStrip?.counts ?? []).some((count) => count !== '');

/**
 * Something was read. What it was read of is kept with it, so that the bands stay where they are
 * when the job, and with it the advice, changes.
 */
export const changeReading = (label: string, change: Partial<Reading>): string | undefined =>
  tryChange(
    label,
    (job) => {
      const woven = stripToRead(job);
      const next = setStrip(job, { ...change, ...(woven === undefined ? {} : { woven }) });
      // An assumed strip stands only for what was read of it.
      return woven?.assumed === true && !isRead(next) ? setStrip(next, { woven: undefined }) : next;
    },
    `reading.${label}`,
  );
