/**
 * Keeps the frames of the job prepared for its sheet, while the person works: whatever changes, the
 * frames that no longer fit are reduced anew, so that the proof turns and the sheet starts at once.
 */
import { prepareFrame } from '../../calls/frames.ts';
import { toWorkError } from '../../contract/errors.ts';
import type { PreparedFrame } from '../../contract/frames.ts';
import { removePrepared } from '../../files/sweep.ts';
import type { SlotPicture } from '../../job/facts/slot-pictures.ts';
import { slotPicturesOf } from '../../job/facts/slot-pictures.ts';
import type { Job } from '../../job/schema/job.ts';
import type { Prepared } from '../../state/work.ts';
import type { Floor } from '../floor.ts';
import { originalLost } from '../frames/original-lost.ts';
import { prepareRequestOf } from './request.ts';
import { keyMaker, signatureOf } from './stack.ts';

const PROOF_PX = 1024;
/** Long enough to type the next digit, short enough to feel live. */
const SETTLE_MS = 120;

/**
 * Gives back the disk that prepared frames take. A file that is being woven reads from them to its end, so
 * nothing is given back while anything is written.
 */
const createRetirement = ({ tasks }: Floor) => {
  const retired: string[] = [];
  const clear = () => {
    if (retired.length === 0 || tasks.isWriting()) return;
    for (const diskName of retired.splice(0)) removePrepared(diskName).catch(() => undefined);
  };
  return {
    retire: ({ diskName }: PreparedFrame): void => {
      if (diskName !== undefined) retired.push(diskName);
      clear();
    },
    waiting: (): readonly string[] => retired,
    start: () => tasks.store.subscribe(clear),
  };
};

/** One run over the pictures that no longer fit. */
interface Run {
  readonly signature: string;
  readonly halt: AbortController;
  /** Asked for again meanwhile: an original may have come back to a frame that failed for want of it. */
  again: boolean;
}

const createShelfOfPrepared = ({ work }: Floor, retire: (frame: PreparedFrame) => void) => ({
  publish: (entries: ReadonlyMap<string, Prepared>): void => {
    const next = new Map(work.getState().prepared);
    for (const [id, entry] of entries) {
      const before = next.get(id);
      if (before !== undefined) retire(before.frame);
      next.set(id, entry);
    }
    work.setState({ prepared: next });
  },

  /** Lets go of frames that fill no slot any more. */
  prune: (needed: readonly SlotPicture[]): void => {
    const ids = new Set(needed.map(({ id }) => id));
    const { prepared } = work.getState();
    const gone = [...prepared].filter(([id]) => !ids.has(id));
    if (gone.length === 0) return;
    for (const [, { frame }] of gone) retire(frame);
    work.setState({ prepared: new Map([...prepared].filter(([id]) => ids.has(id))) });
  },
});

export const createPreparing = (floor: Floor) => {
  const { document, work, tasks, disk } = floor;
  const retirement = createRetirement(floor);
  const { publish, prune } = createShelfOfPrepared(floor, retirement.retire);
  /** Prepared for one file, beside what the proof shows. */
  const held = new Set<string>();
  let running: Run | undefined;

  const prepareOne = async (
    job: Job,
    picture: SlotPicture,
    signal: AbortSignal,
    keep: (entry: Prepared) => void,
  ): Promise<void> => {
    const { frame } = picture;
    let read: Blob | undefined;
    try {
      const key = keyMaker(job, work.getState().wholeParallax)(picture);
      const request = await prepareRequestOf(floor, job, picture, PROOF_PX);
      read = request.file;
      const outcome = await prepareFrame(request, { signal });
      if (!outcome.done) return;
      const { frame: pixels, proof } = outcome.value;
      if (signal.aborted) return retirement.retire(pixels);
      keep({ key, frame: pixels, proof });
    } catch (error) {
      if (signal.aborted) return;
      const { code, message } = toWorkError(error);
      const now = disk.frames.fileOf(frame.id);
      // Its original came back while the lost one was read.
      if (code === 'file-gone' && read !== undefined && now !== undefined && now !== read)
        return prepareOne(job, picture, signal, keep);
      if (code === 'file-gone') originalLost(floor, frame.id);
      const { prepareFaults } = work.getState();
      work.setState({ prepareFaults: new Map(prepareFaults).set(frame.id, message) });
    }
    const { preparing } = work.getState();
    if (preparing !== undefined)
      work.setState({ preparing: { ...preparing, done: preparing.done + 1 } });
  };

  const prepareAll = async (job: Job, missing: readonly SlotPicture[], own: Run): Promise<void> => {
    const { signal } = own.halt;
    const had = work.getState().prepared;
    work.setState({ preparing: { done: 0, total: missing.length }, prepareFaults: new Map() });
    // Frames seen for the first time are shown as they come; renewed ones change places all at once,
    // so that the proof never mixes two sheets.
    const renewed = new Map<string, Prepared>();
    await Promise.all(
      missing.map((picture) =>
        prepareOne(job, picture, signal, (entry) => {
          if (had.has(picture.id)) renewed.set(picture.id, entry);
          else publish(new Map([[picture.id, entry]]));
        }),
      ),
    );
    if (!signal.aborted) return publish(renewed);
    for (const { frame } of renewed.values()) retirement.retire(frame);
  };

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
      return prune(needed);
    }
    const own: Run = { signature, halt: new AbortController(), again: false };
    running = own;
    await tasks.run({ kind: 'prepared', jobId }, () => prepareAll(job, missing, own));
    if (own.halt.signal.aborted) return;
    prune(needed);
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
        ...held,
      ]),

    /** Keeps these files while a file is woven from them alone. @returns what gives their room back */
    hold: (frames: readonly PreparedFrame[]): (() => void) => {
      const names = frames.flatMap(({ diskName }) => diskName ?? []);
      for (const name of names) held.add(name);
      return () => {
        for (const name of names) {
          held.delete(name);
          removePrepared(name).catch(() => undefined);
        }
      };
    },

    /** Drops what is prepared for these pictures, whose pixels are gone, and prepares them anew at once. */
    anew: (gone: ReadonlySet<string>): void => {
      // What is under way does not know of them.
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
          // An original has come back.
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
