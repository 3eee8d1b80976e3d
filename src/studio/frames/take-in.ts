/** Looks at files and makes frames of those that are pictures. */
import { messageOf, toWorkError } from '../../contract/errors.ts';
import { newId } from '../../files/new-id.ts';
import { DiskSilent } from '../../files/private-disk.ts';
import { isNoRoom } from '../../files/room.ts';
import type { Frame, Job } from '../../job/schema/job.ts';
import type { Studio } from '../studio.ts';
import { lookAtFrame } from './look-and-prepare.ts';
import { originalLost } from './original-lost.ts';

/** A file that may be a picture, and the name of its frame. */
interface Candidate {
  readonly name: string;
  readonly file: Blob;
}

interface Setting {
  /** The job that the frames will join. */
  readonly job: Job;
  readonly signal: AbortSignal;
  /** Skips files that the job has already, so that a folder can be added again while it fills. */
  readonly newOnly?: boolean;
  /** Told how many files have been looked at. */
  readonly onDone?: (done: number) => void;
}

interface TakenIn {
  /** New frames, in the order of the files. */
  readonly frames: Frame[];
  /** How many files the job has already. */
  readonly here: number;
  /** How many files were a lost original of the job. */
  readonly back: number;
}

/** Copies a picture to the disk in the background. A failure is reported; the frame does not wait. */
export const copyBehind = (
  studio: Studio,
  id: string,
  name: string,
  file: Blob,
  thumbnail: Blob,
): void => {
  studio.disk.frames.keep(id, name, file, thumbnail).catch((error: unknown) => {
    const { code, message } = toWorkError(error);
    if (error instanceof DiskSilent) {
      // It is the same for every frame, and tried again until the disk answers.
      studio.tell(message);
      return void studio.room.tryAgain();
    }
    studio.notes.problem(message, name);
    if (isNoRoom(error)) studio.room.frameFoundNone(name);
    if (code === 'file-gone') originalLost(studio, id);
  });
};

/** Gives a frame its lost original back if this file has its name and pixels. @returns whether it did. */
const giveBack = (
  studio: Studio,
  { name, file }: Candidate,
  { thumbnail, fingerprint }: { readonly thumbnail: Blob; readonly fingerprint: string },
): boolean => {
  const { document, work, notes } = studio;
  const { missingOriginals, prepareFaults } = work.getState();
  const lost = document
    .getState()
    .job.frames.find(
      (frame) =>
        missingOriginals.has(frame.id) &&
        (frame.fingerprint === undefined
          ? frame.name === name && frame.byteLength === file.size
          : frame.fingerprint === fingerprint),
    );
  if (lost === undefined) return false;
  copyBehind(studio, lost.id, lost.name, file, thumbnail);
  studio.thumbnails.show(lost.id, thumbnail);
  work.setState({
    missingOriginals: new Set([...missingOriginals].filter((id) => id !== lost.id)),
    // The frame is prepared again, and a weave waits for it.
    prepareFaults: new Map([...prepareFaults].filter(([id]) => id !== lost.id)),
  });
  notes.dismissProblemsOf(lost.name);
  notes.inPassing('The job has its original back.', lost.name);
  return true;
};

const isHere = (
  { document }: Studio,
  { name, file }: Candidate,
  { fingerprint }: { readonly fingerprint: string },
): boolean =>
  document
    .getState()
    .job.frames.some(
      (frame) =>
        frame.name === name && frame.byteLength === file.size && frame.fingerprint === fingerprint,
    );

/** Counts what is done, and tells it in a hundred steps at most: whoever shows it is drawn anew at each. */
const counterFor = ({ signal, onDone }: Setting, total: number) => {
  const step = Math.ceil(total / 100);
  let done = 0;
  return (): void => {
    done += 1;
    if (!signal.aborted && (done % step === 0 || done === total)) onDone?.(done);
  };
};

const takeOne = async (
  studio: Studio,
  candidate: Candidate,
  { job, signal, newOnly = false }: Setting,
  prepare: boolean,
): Promise<Frame | 'here' | 'back' | undefined> => {
  const { name, file } = candidate;
  const { preparing, notes, thumbnails } = studio;
  const outcome = await lookAtFrame(studio, { id: newId(), name, file }, job, { prepare, signal });
  if (!outcome.done) return undefined;
  const { frame, facts, prepared } = outcome.value;
  const isBack = giveBack(studio, candidate, facts);
  if (isBack || (newOnly && isHere(studio, candidate, facts))) {
    if (prepared !== undefined) preparing.letGo(prepared);
    if (isBack) return 'back';
    notes.inPassing('It is in the job already, pixel for pixel, so it was not added again.', name);
    return 'here';
  }
  if (prepared !== undefined) preparing.adopt(frame.id, prepared);
  copyBehind(studio, frame.id, name, file, facts.thumbnail);
  thumbnails.show(frame.id, facts.thumbnail);
  return frame;
};

/** So many files are begun at a stretch: the page answers between them. */
const BEGUN_TOGETHER = 100;

/** Adds a note for each file that does not become a new frame, unless it was stopped. */
export const takeIn = async (
  studio: Studio,
  candidates: readonly Candidate[],
  setting: Setting,
): Promise<TakenIn> => {
  const { frames, viewSlots } = setting.job;
  // With more frames than slots, preparing those that are never shown would be wasted work.
  const prepare = frames.length + candidates.length <= viewSlots;
  const countOne = counterFor(setting, candidates.length);
  const takeCounted = async (candidate: Candidate) => {
    try {
      return await takeOne(studio, candidate, setting, prepare);
    } catch (error) {
      studio.notes.problem(messageOf(error), candidate.name);
      return undefined;
    } finally {
      countOne();
    }
  };
  const begun: ReturnType<typeof takeCounted>[] = [];
  for (const candidate of candidates) {
    begun.push(takeCounted(candidate));
    if (begun.length % BEGUN_TOGETHER === 0) await new Promise((resolve) => setTimeout(resolve));
  }
  const taken = await Promise.all(begun);
  return {
    frames: taken.filter((one) => typeof one === 'object'),
    here: taken.filter((one) => one === 'here').length,
    back: taken.filter((one) => one === 'back').length,
  };
};
