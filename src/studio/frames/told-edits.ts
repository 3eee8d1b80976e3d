/** Edits of the sequence that are also announced to screen readers. */
import { nameInText } from '../../core/names/shown.ts';
import { reverseFrames } from '../../job/edits/consequences.ts';
import { removeFrames, sortFrames, stepFrames } from '../../job/edits/frames.ts';
import type { Job } from '../../job/schema/job.ts';
import type { Studio } from '../studio.ts';

type Ids = ReadonlySet<string>;

const jobNow = ({ document }: Studio): Job => document.getState().job;

/** @returns whether the job has changed. */
const make = (studio: Studio, label: string, edit: (job: Job) => Job): boolean => {
  const before = jobNow(studio);
  studio.change(label, edit);
  return jobNow(studio) !== before;
};

const sayWhich = (studio: Studio, ids: Ids): string => {
  const [only] = ids;
  const name = jobNow(studio).frames.find(({ id }) => id === only)?.name;
  return ids.size === 1 && name !== undefined ? nameInText(name) : `${ids.size} frames`;
};

const announcePlace = (studio: Studio, ids: Ids): void => {
  const { frames } = jobNow(studio);
  const which = sayWhich(studio, ids);
  const first = frames.findIndex(({ id }) => ids.has(id)) + 1;
  studio.announce(
    ids.size === 1
      ? `${which} is now ${first} of ${frames.length}.`
      : `${which} moved, the first is now ${first} of ${frames.length}.`,
  );
};

export const moveTold = (studio: Studio, ids: Ids, edit: (job: Job) => Job): void => {
  if (make(studio, `moving ${sayWhich(studio, ids)}`, edit)) announcePlace(studio, ids);
};

export const stepTold = (studio: Studio, ids: Ids, step: -1 | 1): void => {
  const label = `moving ${sayWhich(studio, ids)}`;
  if (make(studio, label, (job) => stepFrames(job, ids, step))) announcePlace(studio, ids);
  else studio.announce(step < 0 ? 'Already the first.' : 'Already the last.');
};

export const removeTold = (studio: Studio, ids: Ids): void => {
  const which = sayWhich(studio, ids);
  if (make(studio, `removing ${which}`, (job) => removeFrames(job, ids)))
    studio.announce(
      `${which} removed, ${jobNow(studio).frames.length} left. Undo brings back what was removed.`,
    );
};

export const reverseTold = (studio: Studio): void => {
  if (make(studio, 'reversed order', reverseFrames))
    studio.announce(
      `Order reversed: ${nameInText(jobNow(studio).frames[0]?.name ?? '')} is now the first.`,
    );
};

export const sortTold = (studio: Studio): void => {
  studio.announce(
    make(studio, 'sorting by name', sortFrames) ? 'Sorted by name.' : 'Already sorted by name.',
  );
};
