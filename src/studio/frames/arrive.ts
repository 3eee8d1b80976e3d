/** From what a person hands over to frames in the job, with progress, a stop and a word on the rest. */
import { shortNames } from '../../core/frames/names.ts';
import { compareNames } from '../../core/frames/order.ts';
import type { Gathered } from '../../files/arrivals.ts';
import type { Frame } from '../../job/schema/job.ts';
import { documentStore } from '../../state/document.ts';
import { workStore } from '../../state/work.ts';
import { askOnceToKeep } from '../keep/ask-to-keep.ts';
import { addFrames } from '../../job/edits/frames.ts';
import { announce } from './live.ts';
import { noteInPassing, noteProblem } from './notes.ts';
import { takeIn } from './take-in.ts';

/** One batch after another; stopping ends them all. */
let halt = new AbortController();
let last: Promise<void> = Promise.resolve();
let batches = 0;

export const stopArriving = (): void => {
  halt.abort();
  halt = new AbortController();
};

/** Runs a batch when those before it have ended. Its signal fires when the person stops arrivals. */
export const inTurn = (batch: (signal: AbortSignal) => Promise<void>): Promise<void> => {
  const { signal } = halt;
  batches += 1;
  if (batches === 1) workStore.getState().set({ arriving: { done: 0, total: 0 } });
  last = last
    .then(() => {
      const { lookOnly } = documentStore.getState();
      if (lookOnly !== undefined) throw new Error(lookOnly);
      return batch(signal);
    })
    .catch((error: unknown) => noteProblem(error instanceof Error ? error.message : String(error)))
    .finally(() => {
      batches -= 1;
      if (batches === 0) workStore.getState().set({ arriving: undefined });
    });
  return last;
};

const frames = (count: number) => `${count} ${count === 1 ? 'frame' : 'frames'}`;

const noteTwins = (added: readonly Frame[]): void => {
  const known = new Set(documentStore.getState().job.frames.map(({ name }) => name));
  for (const { name } of added) {
    if (known.has(name))
      noteInPassing('Duplicate name: a frame of this name is already there. Both are kept.', name);
    known.add(name);
  }
};

/** @param gather given the signal of a stop; called in turn, so a drop must have begun gathering. */
export const arrive = (gather: (signal: AbortSignal) => Promise<Gathered>): Promise<void> => {
  const gathering = gather(halt.signal);
  // Handled in turn; until then a failure must not count as unhandled.
  gathering.catch(() => undefined);
  return inTurn(async (signal) => {
    const { arrivals, leftOut } = await gathering;
    const sorted = [...arrivals].sort((a, b) => compareNames(a.path, b.path));
    for (const { path, reason, severity } of leftOut)
      (severity === 'problem' ? noteProblem : noteInPassing)(reason, path);
    workStore.getState().set({ arriving: { done: 0, total: sorted.length } });
    const names = shortNames(sorted.map(({ path }) => path));
    const { exposureStops } = documentStore.getState().job;
    const lostBefore = workStore.getState().missingOriginals.size;
    let here = 0;
    const added = await takeIn(sorted, names, exposureStops, signal, () => (here += 1));
    noteTwins(added);
    documentStore
      .getState()
      .change(`adding ${frames(added.length)}`, (job) => addFrames(job, added));
    if (added.length > 0) void askOnceToKeep();
    const back = lostBefore - workStore.getState().missingOriginals.size;
    const missed = sorted.length - added.length - back - here;
    announce(
      (added.length > 0 || back === 0 ? `${frames(added.length)} added.` : '') +
        (here > 0 ? ` ${frames(here)} had been added before.` : '') +
        (back > 0 ? ` ${frames(back)} got the original back.` : '') +
        (signal.aborted ? ' Stopped: the rest was left out.' : '') +
        (!signal.aborted && missed > 0 ? ` ${missed} could not be read.` : ''),
    );
  });
};
