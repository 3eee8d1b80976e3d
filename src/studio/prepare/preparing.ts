/**
 * Keeps the job's frames prepared for its sheet while the person works: after a change, frames that no longer
 * fit are prepared again, so that the proof turns and a weave starts at once.
 */
import { slotPicturesOf } from '../../job/facts/slot-pictures.ts';
import type { Prepared } from '../../state/work.ts';
import type { Floor } from '../floor.ts';
import { preparePictures, prune, publish } from './prepare-pictures.ts';
import { createHeld, createRetirement } from './retirement.ts';
import { keyMaker, signatureOf } from './stack.ts';

/** Long enough to type the next digit, short enough to feel immediate. */
const SETTLE_MS = 120;

/** One run over the pictures that no longer fit. */
interface Run {
  readonly signature: string;
  readonly halt: AbortController;
  /** A run was asked for during this one: an original may have been added again. */
  again: boolean;
}

export const createPreparing = (floor: Floor) => {
  const { document, work, tasks } = floor;
  const retirement = createRetirement(floor);
  const held = createHeld();
  let running: Run | undefined;

  const prepareMissing = async (): Promise<void> => {
    const { job, jobId } = document.getState();
    const { wholeParallax, prepared } = work.getState();
    const keyOf = keyMaker(job, wholeParallax);
    const { pictures: needed } = slotPicturesOf(job);
    const missing = needed.filter((picture) => prepared.get(picture.id)?.key !== keyOf(picture));
    const signature = signatureOf(job, wholeParallax);
    if (running?.signature === signature) {
      running.again = true;
      return;
    }
    running?.halt.abort();
    running = undefined;
    if (missing.length === 0) {
      work.setState({ preparing: undefined, prepareFaults: new Map() });
      return prune(floor, retirement, needed);
    }
    const own: Run = { signature, halt: new AbortController(), again: false };
    running = own;
    const { signal } = own.halt;
    await tasks.run({ kind: 'prepared', jobId }, () =>
      preparePictures({ floor, retirement, job, signal }, missing),
    );
    if (signal.aborted) return;
    prune(floor, retirement, needed);
    running = undefined;
    if (own.again) return prepareMissing();
    work.setState({ preparing: undefined });
  };

  return {
    /** Files on the private disk that the proof or a weave reads. */
    inUse: (): ReadonlySet<string> =>
      new Set([
        ...[...work.getState().prepared.values()].flatMap(({ frame }) => frame.diskName ?? []),
        ...retirement.waiting(),
        ...held.names,
      ]),

    hold: held.hold,

    /** Takes a frame that was prepared as it arrived. If it does not fit it is prepared again. */
    adopt: (id: string, entry: Prepared): void =>
      publish(floor, retirement, new Map([[id, entry]])),

    /** Frees a prepared frame that is not needed. */
    letGo: ({ frame }: Prepared): void => retirement.retire(frame),

    /** Prepares pictures again whose prepared pixels are gone. */
    anew: (gone: ReadonlySet<string>): void => {
      // The run under way counts them as prepared, so another has to begin.
      running?.halt.abort();
      running = undefined;
      const { prepared } = work.getState();
      work.setState({ prepared: new Map([...prepared].filter(([id]) => !gone.has(id))) });
      void prepareMissing();
    },

    /** Keeps the job's frames prepared from now on. @returns what ends that */
    start: (): (() => void) => {
      let timer: ReturnType<typeof setTimeout> | undefined;
      const soon = () => {
        clearTimeout(timer);
        timer = setTimeout(() => {
          if (document.getState().ready) void prepareMissing();
        }, SETTLE_MS);
      };
      const endings = [
        document.subscribe(soon),
        retirement.start(),
        work.subscribe((now, before) => {
          if (now.wholeParallax !== before.wholeParallax) soon();
          // An original was added again.
          if (now.missingOriginals.size < before.missingOriginals.size) soon();
        }),
      ];
      soon();
      return () => {
        clearTimeout(timer);
        for (const end of endings) end();
      };
    },
  };
};
