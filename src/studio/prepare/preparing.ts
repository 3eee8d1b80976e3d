/**
 * Keeps the frames of the job prepared for its sheet, while the person works: whatever changes, the
 * frames that no longer fit are reduced again, so that the proof turns and the sheet starts at once.
 */
import { slotPicturesOf } from '../../job/facts/slot-pictures.ts';
import type { Prepared } from '../../state/work.ts';
import type { Floor } from '../floor.ts';
import { preparePictures, prune, publish } from './prepare-pictures.ts';
import { createHeld, createRetirement } from './retirement.ts';
import { keyMaker, signatureOf } from './stack.ts';

/** Long enough to type the next digit, short enough to feel live. */
const SETTLE_MS = 120;

/** One run over the pictures that no longer fit. */
interface Run {
  readonly signature: string;
  readonly halt: AbortController;
  /** Set when a run is asked for during a run: an original may have been added again meanwhile. */
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
    /** Files on the private disk that the proof and whatever is being woven read from. */
    inUse: (): ReadonlySet<string> =>
      new Set([
        ...[...work.getState().prepared.values()].flatMap(({ frame }) => frame.diskName ?? []),
        ...retirement.waiting(),
        ...held.names,
      ]),

    hold: held.hold,

    /** Takes over a frame that was prepared as it arrived; where it does not fit it is prepared again. */
    adopt: (id: string, entry: Prepared): void =>
      publish(floor, retirement, new Map([[id, entry]])),

    /** Frees a frame that was prepared but is not needed after all. */
    letGo: ({ frame }: Prepared): void => retirement.retire(frame),

    /** Drops what is prepared for these pictures, whose pixels are gone, and prepares them again at once. */
    anew: (gone: ReadonlySet<string>): void => {
      // The run under way still counts them as prepared: begin another.
      running?.halt.abort();
      running = undefined;
      const { prepared } = work.getState();
      work.setState({ prepared: new Map([...prepared].filter(([id]) => !gone.has(id))) });
      void prepareMissing();
    },

    /** Begins to keep the job's frames prepared; returns what ends it. */
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

export type Preparing = ReturnType<typeof createPreparing>;
