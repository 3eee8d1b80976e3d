/** Another job in the place of the open one: a kept one, a new one, a demo print. */
import type { JobHold } from '../../files/job-hold.ts';
import type { LoadedJob } from '../../files/job-store.ts';
import { newId } from '../../files/new-id.ts';
import type { Job } from '../../job/schema/job.ts';
import type { Floor } from '../floor.ts';
import type { JobWriter } from './job-writer.ts';
import { rememberOpen } from './last-open.ts';
import { layIn, layInDemo } from './lay-in.ts';
import { nextJob } from './next-job.ts';

export const createJobOpening = (floor: Floor, writer: JobWriter, hold: JobHold) => {
  const { document: store, work, tasks } = floor;
  const { jobs } = floor.disk;
  const { flush } = writer;

  /** Keeps the present job. @throws when that cannot be done: it must not be left then. */
  const settle = async (): Promise<void> => {
    tasks.nothingUnderWay();
    await flush();
    if (!writer.waits()) return;
    throw new Error(
      'The last change of the open job is not kept yet, so it was not left. Free some room, then try again.',
    );
  };

  /**
   * A demo print is shown under an id of its own: it becomes the person's copy with their first change, and
   * no tab need hold it before. @param keptId of the kept demo, where there is one
   */
  const showDemo = async (demo: Job, keptId?: string): Promise<void> => {
    const jobId = newId();
    await hold.hold(jobId);
    layInDemo(floor, writer, { jobId, demo, keptId });
  };

  return {
    /** Opens a kept job in the place of the present one, whose last change is kept first. */
    open: async (id: string): Promise<LoadedJob> => {
      await settle();
      const before = store.getState().jobId;
      const held = await hold.hold(id);
      const loaded = await jobs.openJob(id, held !== 'elsewhere');
      if (loaded.kind === 'job' && loaded.job.demo !== undefined) await showDemo(loaded.job, id);
      else if (loaded.kind === 'job') layIn(floor, writer, id, loaded, held);
      else if (before !== '' && store.getState().lookOnly === undefined) await hold.hold(before);
      return loaded;
    },

    /** Begins a job in the place of the present one: this one, or an empty one on the person's lens and printer. */
    begin: async (asked?: Job): Promise<void> => {
      await settle();
      const job = asked ?? (await nextJob(floor));
      const jobId = newId();
      await hold.hold(jobId);
      store.setState({ lookOnly: undefined });
      store.getState().open(job, { jobId });
      work.setState({ missingOriginals: new Set() });
      rememberOpen(jobId);
      writer.keepSoon({ jobId, job, settled: { label: 'as it began' } });
      await flush();
    },

    /** Shows a demo print whose frames are still to come, in the place of the present job. Nothing is kept yet. */
    beginDemo: async (demo: Job): Promise<void> => {
      await settle();
      await showDemo(demo);
    },
  };
};
