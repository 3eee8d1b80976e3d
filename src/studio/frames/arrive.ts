/** From what a person hands over to frames in the job, with progress, a stop, and notes on files that did not become frames. */
import { shortNames } from '../../core/frames/names.ts';
import { compareNames } from '../../core/frames/order.ts';
import type { Gathered } from '../../files/arrivals.ts';
import { addFrames } from '../../job/edits/frames.ts';
import type { Frame } from '../../job/schema/job.ts';
import { askOnceToKeep } from '../keep/ask-to-keep.ts';
import type { Studio } from '../studio.ts';
import { takeIn } from './take-in.ts';

const sayFrames = (count: number) => `${count} ${count === 1 ? 'frame' : 'frames'}`;

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

const layIn = async (
  studio: Studio,
  { arrivals, leftOut }: Gathered,
  signal: AbortSignal,
): Promise<void> => {
  const { document, work, notes } = studio;
  for (const { path, reason, severity } of leftOut)
    if (severity === 'problem') notes.problem(reason, path);
    else notes.inPassing(reason, path);
  const sorted = [...arrivals].sort((a, b) => compareNames(a.path, b.path));
  const names = shortNames(sorted.map(({ path }) => path));
  work.getState().set({ arriving: { done: 0, total: sorted.length } });
  const { frames, here, back } = await takeIn(
    studio,
    sorted.map(({ name, file }, index) => ({ name: names[index] ?? name, file })),
    { job: document.getState().job, signal, newOnly: true },
  );
  noteTwins(studio, frames);
  const refused = studio.change(`adding ${sayFrames(frames.length)}`, (job) =>
    addFrames(job, frames),
  );
  if (refused !== undefined) throw new Error(refused);
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

/** @param gather receives the stop signal; called at once, because a drop can be read only during its event. */
export const arrive = (
  studio: Studio,
  gather: (signal: AbortSignal) => Promise<Gathered>,
): Promise<void> =>
  studio.arrivals.inTurn((signal) => {
    const gathering = gather(signal);
    // Handled in turn; until then a failure must not count as unhandled.
    gathering.catch(() => undefined);
    return async () => layIn(studio, await gathering, signal);
  });
