/** The edits of the sequence, made in the document and told to those who listen. */
import { reverseFrames } from '../../job/edits/consequences.ts';
import type { Job } from '../../job/schema/job.ts';
import { documentStore } from '../../state/document.ts';
import { removeFrames, sortFrames, stepFrames } from '../../job/edits/frames.ts';
import { announce } from './live.ts';

const jobNow = (): Job => documentStore.getState().job;

/** Makes the change; true when there was something to change. */
const make = (label: string, edit: (job: Job) => Job): boolean => {
  const before = jobNow();
  documentStore.getState().change(label, edit);
  return jobNow() !== before;
};

const told = (ids: ReadonlySet<string>): string => {
  const [only] = ids;
  const name = jobNow().frames.find(({ id }) => id === only)?.name;
  return ids.size === 1 && name !== undefined ? name : `${ids.size} frames`;
};

const sayPlace = (ids: ReadonlySet<string>): void => {
  const { frames } = jobNow();
  const first = frames.findIndex(({ id }) => ids.has(id)) + 1;
  announce(
    ids.size === 1
      ? `${told(ids)} is now ${first} of ${frames.length}.`
      : `${told(ids)} moved, the first is now ${first} of ${frames.length}.`,
  );
};

export const moveTold = (ids: ReadonlySet<string>, edit: (job: Job) => Job): void => {
  if (make(`moving ${told(ids)}`, edit)) sayPlace(ids);
};

export const stepTold = (ids: ReadonlySet<string>, step: -1 | 1): void => {
  if (make(`moving ${told(ids)}`, (job) => stepFrames(job, ids, step))) sayPlace(ids);
  else announce(step < 0 ? 'Already the first.' : 'Already the last.');
};

export const removeTold = (ids: ReadonlySet<string>): void => {
  const what = told(ids);
  if (make(`removing ${what}`, (job) => removeFrames(job, ids)))
    announce(`${what} removed, ${jobNow().frames.length} left. Undo brings back what was removed.`);
};

export const reverseTold = (): void => {
  if (make('reversed order', reverseFrames))
    announce(`Order reversed: ${jobNow().frames[0]?.name ?? ''} is now the first.`);
};

export const sortTold = (): void => {
  announce(make('sorting by name', sortFrames) ? 'Sorted by name.' : 'Already sorted by name.');
};
