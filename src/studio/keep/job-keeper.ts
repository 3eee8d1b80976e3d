/**
 * Between the document and the kept jobs, for one tab: keeps every change, opens another job in its
 * place, and looks on where another tab has the job.
 */
import { createJobHold, hasLocks } from '../../files/job-hold.ts';
import type { Floor } from '../floor.ts';
import type { JobWriter } from './job-writer.ts';
import { createJobOpening } from './job-opening.ts';
import { createJobWriter } from './job-writer.ts';
import { followCopies } from './own-copy.ts';
import { layIn } from './lay-in.ts';
import type { Room } from './no-room.ts';

/** The list of kept jobs is read again. */
const readListAnew = ({ work }: Floor): void =>
  work.setState(({ jobsChanged }) => ({ jobsChanged: jobsChanged + 1 }));

/** Where another tab has the job, this one only shows what that tab writes. */
const followOther = async (
  { document: store, disk: { jobs } }: Floor,
  writer: JobWriter,
  jobId: string | undefined,
): Promise<void> => {
  const { jobId: own, lookOnly } = store.getState();
  if (jobId === undefined || jobId !== own) return;
  if (lookOnly === undefined) {
    // Whoever holds the lock is the only one to write; without locks the later tab has it now.
    if (hasLocks()) return;
    writer.giveUp();
  }
  const loaded = await jobs.loadJobById(jobId);
  const still = store.getState();
  if (loaded.kind === 'job' && still.jobId === jobId && still.lookOnly !== undefined)
    still.open(loaded.job);
};

/** Calls back whenever the page may be about to close. Returns a function that ends the watch. */
const onGoing = (told: () => void): (() => void) => {
  const onLeave = () => {
    // A field that is not left yet commits what is typed there.
    if (document.activeElement instanceof HTMLElement) document.activeElement.blur();
    told();
  };
  const onHide = () => {
    if (document.visibilityState === 'hidden') told();
  };
  addEventListener('pagehide', onLeave);
  document.addEventListener('visibilitychange', onHide);
  // A hidden page may still change the job, then be frozen and thrown away without another word.
  document.addEventListener('freeze', told);
  return () => {
    removeEventListener('pagehide', onLeave);
    document.removeEventListener('visibilitychange', onHide);
    document.removeEventListener('freeze', told);
  };
};

/** After the kept jobs were deleted under the page: the open one is kept again, and that is told. */
const keepAnew = async (floor: Floor, writer: JobWriter): Promise<void> => {
  const { document: store, disk, tell } = floor;
  const { job, jobId, lookOnly } = store.getState();
  if (jobId === '' || job.demo !== undefined || lookOnly !== undefined) return;
  if ((await disk.jobs.loadJobById(jobId)).kind !== 'none') return;
  tell(
    'The jobs kept in this browser were deleted, in another tab or with its site data. The open job is kept again, ' +
      'as it stands here; the others can only be had from job files.',
  );
  writer.keepSoon({ jobId, job: store.getState().job, settled: { label: 'as it stood' } });
  await writer.flush();
  readListAnew(floor);
};

export const createJobKeeper = (floor: Floor, room: Room) => {
  const { document: store, work, tell } = floor;
  const { jobs } = floor.disk;
  const writer = createJobWriter(floor, room, (jobId) => hold.tellKept(jobId));
  const { flush } = writer;

  const hold = createJobHold({
    beforeHandingOn: flush,
    onLost: writer.giveUp,
    onKeptElsewhere: (jobId) => {
      readListAnew(floor);
      void followOther(floor, writer, jobId);
    },
  });

  return {
    /** Keeps the job from now on; at once when the page is about to go. Returns what ends it. */
    start: (): (() => void) => {
      jobs.onClosed(() => void keepAnew(floor, writer).catch(() => undefined));
      const endings = [
        // Before its first change is written, the copy is.
        followCopies(floor, writer),
        writer.follow(),
        onGoing(() => void flush()),
      ];
      return () => {
        void flush();
        for (const end of endings) end();
      };
    },

    flush,

    /** Which tab may write the job. */
    hold,

    ...createJobOpening(floor, writer, hold),

    /** Makes this tab the one that works on the job, and lays in what the other one kept. */
    takeOver: async (): Promise<void> => {
      const { jobId } = store.getState();
      const held = await hold.takeOver(jobId);
      const loaded = await jobs.openJob(jobId);
      if (loaded.kind === 'job') return layIn(floor, writer, jobId, loaded, held);
      hold.release();
      tell('This job was deleted for good in another tab. Open another one under Jobs.');
    },

    /** The list of kept jobs has changed: it is read again here, and in other tabs. */
    listChanged: (): void => {
      readListAnew(floor);
      hold.tellKept();
    },

    /** Tries at once everything that found no room, after some was made; what finds none now is told. */
    keepAllAgain: async (): Promise<void> => {
      // A file that was woven for nothing is woven again.
      work.setState({ noRoomFor: room.waiting() });
      await room.tryAgain();
      await writer.again();
    },
  };
};

export type JobKeeper = ReturnType<typeof createJobKeeper>;
