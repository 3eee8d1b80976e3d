/** Turns what a person hands over into frames of the job, with progress, a stop, and notes on other files. */
import { shortNames } from '../../core/frames/names.ts';
import { inNaturalOrder, sortedBy } from '../../core/frames/order.ts';
import type { Arrival, Gathered } from '../../files/arrivals.ts';
import { addFrames, layFrames } from '../../job/edits/frames.ts';
import type { Frame } from '../../job/schema/job.ts';
import { sayFrames } from '../../job/words/frames.ts';
import { askOnceToKeep } from '../keep/ask-to-keep.ts';
import type { Studio } from '../studio.ts';
import { takeIn } from './take-in.ts';

const noteTwins = ({ document, notes }: Studio, added: readonly Frame[]): void => {
  const known = new Set(document.getState().job.frames.map(({ name }) => name));
  for (const { name } of added) {
    if (known.has(name))
      notes.inPassing(
        'Duplicate name: a frame of this name is already there. Both are kept.',
        name,
      );
    known.add(name);
  }
};

/** `replace`: what arrives takes the place of the job's frames. */
export type HowToAdd = 'add' | 'replace';

const layIn = async (
  studio: Studio,
  { arrivals, leftOut }: Gathered,
  how: HowToAdd,
  signal: AbortSignal,
): Promise<void> => {
  const { document, work, notes } = studio;
  for (const { path, reason, severity } of leftOut)
    if (severity === 'problem') notes.problem(reason, path);
    else notes.inPassing(reason, path);
  const sorted = inOrder(arrivals);
  const names = shortNames(sorted.map(({ path }) => path));
  const total = sorted.length;
  work.setState({ arriving: { done: 0, total } });
  const { job: before } = document.getState();
  const { frames, here, back } = await takeIn(
    studio,
    sorted.map(({ name, file }, index) => ({ name: names[index] ?? name, file })),
    {
      job: how === 'add' ? before : layFrames(before, []),
      signal,
      newOnly: how === 'add',
      onDone: (done) => work.setState({ arriving: { done, total } }),
    },
  );
  if (how === 'add') noteTwins(studio, frames);
  studio.changeOrThrow(
    how === 'add'
      ? `adding ${sayFrames(frames.length)}`
      : `${sayFrames(frames.length)} in place of others`,
    (job) =>
      how === 'add' || frames.length === 0
        ? addFrames(job, frames)
        : layFrames(job, inNaturalOrder(frames)),
  );
  if (frames.length > 0) void askOnceToKeep();
  const missed = sorted.length - frames.length - back - here;
  studio.announce(
    (frames.length > 0 || back === 0 ? `${sayFrames(frames.length)} added.` : '') +
      (here > 0 ? ` ${sayFrames(here)} had been added before.` : '') +
      (back > 0 ? ` ${sayFrames(back)} got the original back.` : '') +
      (signal.aborted ? ' Stopped: the rest was left out.' : '') +
      (!signal.aborted && missed > 0 ? ` ${missed} could not be read.` : ''),
  );
};

/** In the order that people give files: 2 before 10. */
export const inOrder = (arrivals: readonly Arrival[]): Arrival[] =>
  sortedBy(arrivals, ({ path }) => path);

/** @param gather called at once with the stop signal, because a drop can be read only during its event. */
export const arrive = (
  studio: Studio,
  gather: (signal: AbortSignal) => Promise<Gathered>,
  how: HowToAdd = 'add',
): Promise<void> =>
  studio.arrivals.inTurn((signal) => {
    const gathering = gather(signal);
    // The queued function below handles a failure; until then it must not count as unhandled.
    gathering.catch(() => undefined);
    return async () => layIn(studio, await gathering, how, signal);
  });
