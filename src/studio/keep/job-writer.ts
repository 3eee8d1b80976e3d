/**
 * Writes the changes of the open job: the newest state soon after each change, again after a failure, and as a
 * separate job if another tab has written a newer state.
 */
import { messageOf } from '../../contract/errors.ts';
import { nameInText } from '../../core/names/shown.ts';
import type { Settled } from '../../files/job-store.ts';
import { Overtaken } from '../../files/job-store.ts';
import { isNoRoom } from '../../files/room.ts';
import type { Job } from '../../job/schema/job.ts';
import type { DocumentState } from '../../state/document.ts';
import type { Floor } from '../floor.ts';
import type { Room } from './no-room.ts';
import { TRY_AGAIN_MS } from './no-room.ts';

/** Long enough to fold typing into one write; short enough that a crash loses almost nothing. */
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
    : { label: now.past.at(-1)?.label ?? 'as it was opened', bench: now.past.at(-1)?.bench };

const failedWords = (error: unknown): string =>
  `The job could not be kept on this computer (${messageOf(error)}). It is still open here, and keeping it is tried again every ten seconds.`;

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
  const kept = await room.keep(`the job “${nameInText(name)}”`, async () => {
    await jobs.createJob({ ...job, name }, 'as the other tab left it');
    tellKept();
  });
  tell(
    `Another tab had gone on with this job. What was last changed here ${kept ? 'is' : 'will be'} kept as a job of its own, “${nameInText(name)}”${kept ? '' : ', once there is room: leave this page open until then'}.`,
  );
};

export const createJobWriter = (floor: Floor, room: Room, tellKept: TellKept) => {
  const { document: store, disk, tell } = floor;
  let unsaved: Change | undefined;
  /** The newest change whose write has begun. */
  let newest: Change | undefined;
  let writing: Promise<unknown> = Promise.resolve();
  let timer: ReturnType<typeof setTimeout> | undefined;
  /** A failure is reported once, until a write succeeds. */
  let failing = false;
  /** The name under which a full disk was reported. */
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
    // Never write an older state over a newer one.
    const next = unsaved ?? (change === newest ? change : undefined);
    if (next !== undefined) soon(next, TRY_AGAIN_MS);
    if (failing) return;
    failing = true;
    floor.askBeforeLeaving('job is not kept', true);
    if (!isNoRoom(error)) return tell(failedWords(error));
    roomless = `the job “${nameInText(change.job.name)}”`;
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
    /** Writes what is not written yet. Resolves when every write has ended; never rejects. */
    flush,

    /** Whether a change still waits to be written. */
    waits: (): boolean => unsaved !== undefined,

    keepSoon: (change: Change): void => soon(change),

    /** Forgets a change that needs no writing. */
    forget: (): void => void take(),

    /** Another tab has the job from now on. */
    giveUp: (): void => {
      store.setState({ lookOnly: takenOver });
      const change = take();
      if (change !== undefined) setAside(floor, room, tellKept, change).catch(() => undefined);
    },

    /** Retries a failed write at once. Another failure is reported again. */
    again: (): Promise<void> => {
      failing = false;
      return flush();
    },

    /** Writes every change of the open job from now on. @returns what ends that */
    follow: (): (() => void) =>
      store.subscribe((now, before) => {
        const { job, jobId, lookOnly } = now;
        if (job === before.job || jobId === '' || jobId !== before.jobId) return;
        if (lookOnly !== undefined || job.demo !== undefined) return;
        // Each undo step becomes a state of its own, even if it follows the last one quickly.
        if (now.past.at(-1)?.before === before.job) void flush();
        soon({ jobId, job, settled: settledBy(now, before) });
      }),
  };
};

export type JobWriter = ReturnType<typeof createJobWriter>;
