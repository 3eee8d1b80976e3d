/**
 * Writes the changes of the open job: the newest state soon after it came, once more where that failed, and
 * as a job of its own where another tab had gone on meanwhile.
 */
import { toWorkError } from '../../contract/errors.ts';
import type { Settled } from '../../files/job-store.ts';
import { Overtaken } from '../../files/job-store.ts';
import { isNoRoom } from '../../files/room.ts';
import type { Job } from '../../job/schema/job.ts';
import type { DocumentState } from '../../state/document.ts';
import type { Floor } from '../floor.ts';
import type { Room } from './no-room.ts';
import { TRY_AGAIN_MS } from './no-room.ts';

/** Long enough to fold typing into one write; short enough that a crash loses next to nothing. */
const SETTLE_MS = 400;

export const takenOver = 'Another tab has taken this job over. Take it back to change it here.';

interface Change {
  readonly jobId: string;
  readonly job: Job;
  readonly settled: Settled;
}

const settledBy = (now: DocumentState, before: DocumentState): Settled =>
  now.future.length > before.future.length
    ? { label: `undoing ${now.future.at(-1)?.label ?? ''}`, undone: true }
    : { label: now.past.at(-1)?.label ?? 'as it was opened' };

const failedWords = (error: unknown): string =>
  `The job could not be kept on this computer (${toWorkError(error).message}). It is still open here, and keeping it is tried again every ten seconds.`;

/** Tells other tabs which job has a newer state; without an id, that the list of jobs has changed. */
type TellKept = (jobId?: string) => void;

/** When another tab has written a newer state, this tab's changes are kept as a separate job. */
const setAside = async (
  { disk: { jobs }, tell }: Floor,
  room: Room,
  tellKept: TellKept,
  { job }: Change,
): Promise<void> => {
  const name = `${job.name.slice(0, 170)} (from the other tab)`;
  const kept = await room.keep(`the job “${name}”`, async () => {
    await jobs.createJob({ ...job, name }, 'as the other tab left it');
    tellKept();
  });
  tell(
    `Another tab had gone on with this job. What was last changed here ${kept ? 'is' : 'will be'} kept as a job of its own, “${name}”${kept ? '' : ', once there is room: leave this page open until then'}.`,
  );
};

export const createJobWriter = (floor: Floor, room: Room, tellKept: TellKept) => {
  const { document: store, disk, tell } = floor;
  let unsaved: Change | undefined;
  /** The newest that was set out to be written, whether or not it was. */
  let newest: Change | undefined;
  let writing: Promise<unknown> = Promise.resolve();
  let timer: ReturnType<typeof setTimeout> | undefined;
  /** That writing fails is said once, until one write succeeds. */
  let failing = false;
  /** What was said to find no room. */
  let roomless = '';

  const soon = (change: Change, afterMs = SETTLE_MS): void => {
    unsaved = change;
    clearTimeout(timer);
    timer = setTimeout(() => void flush(), afterMs);
  };

  const take = (): Change | undefined => {
    clearTimeout(timer);
    const change = unsaved;
    unsaved = undefined;
    return change;
  };

  const onFailure = async (error: unknown, change: Change): Promise<void> => {
    if (error instanceof Overtaken) {
      store.setState({ lookOnly: takenOver });
      return setAside(floor, room, tellKept, change).catch(() => undefined);
    }
    // An older state is not written over one that came after it.
    const next = unsaved ?? (change === newest ? change : undefined);
    if (next !== undefined) soon(next, TRY_AGAIN_MS);
    if (failing) return;
    failing = true;
    floor.askBeforeLeaving('job is not kept', true);
    if (!isNoRoom(error)) return tell(failedWords(error));
    roomless = `the job “${change.job.name}”`;
    room.tell(roomless);
  };

  const write = async (change: Change): Promise<void> => {
    try {
      await disk.jobs.saveJob(change.jobId, change.job, change.settled);
      failing = false;
      floor.askBeforeLeaving('job is not kept', false);
      room.found(roomless);
      tellKept(change.jobId);
    } catch (error) {
      await onFailure(error, change);
    }
  };

  const flush = async (): Promise<void> => {
    const change = take();
    if (change !== undefined) {
      newest = change;
      writing = Promise.all([writing, write(change)]);
    }
    await writing;
  };

  return {
    /** Keeps what is not kept yet. Resolves when every write under way has ended; never rejects. */
    flush,

    /** Whether a change still waits to be written. */
    waits: (): boolean => unsaved !== undefined,

    keepSoon: (change: Change): void => soon(change),

    /** Forgets a change that needs no writing. */
    forget: (): void => void take(),

    /** The job is another tab's from now on. */
    giveUp: (): void => {
      store.setState({ lookOnly: takenOver });
      const change = take();
      if (change !== undefined) setAside(floor, room, tellKept, change).catch(() => undefined);
    },

    /** Tries at once what failed; when it fails again, that is told again. */
    again: (): Promise<void> => {
      failing = false;
      return flush();
    },

    /** Keeps every change of the open job from now on. Returns what ends it. */
    follow: (): (() => void) =>
      store.subscribe((now, before) => {
        const { job, jobId, lookOnly } = now;
        if (job === before.job || jobId === '' || jobId !== before.jobId) return;
        if (lookOnly !== undefined || job.demo !== undefined) return;
        // Each undo step is kept as a state of its own, however soon it follows the last.
        if (now.past.at(-1)?.before === before.job) void flush();
        soon({ jobId, job, settled: settledBy(now, before) });
      }),
  };
};

export type JobWriter = ReturnType<typeof createJobWriter>;
