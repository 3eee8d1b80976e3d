/** Opens a job at the start: the last one, or that of the first visit. */
import { isAloneWithScratch } from '../../files/sweep.ts';
import type { LoadedJob } from '../../files/job-store.ts';
import type { Job } from '../../job/schema/job.ts';
import type { Studio } from '../studio.ts';
import { lastOpen } from './last-open.ts';

/**
 * Opens the job that was open last, else the newest; undefined if there is none. A job whose first state was never
 * written, such as a copy of the demo begun just before a reload, is known by its last words alone.
 */
const openLast = async ({ keeper, disk: { jobs } }: Studio): Promise<LoadedJob | undefined> => {
  const known = new Set((await jobs.listJobs()).map(({ id }) => id));
  const [first] = [...lastOpen().filter((id) => known.has(id) || jobs.hasLastWords(id)), ...known];
  return first === undefined ? undefined : keeper.open(first);
};

/** A demo whose frames never came: nothing of a person's is in it. */
const isEmptyDemo = ({ demo, frames }: Job): boolean => demo !== undefined && frames.length === 0;

const openWhatIsKept = async (studio: Studio, firstVisit: () => Promise<void>): Promise<void> => {
  const { keeper, tell, disk } = studio;
  const why = await disk.jobs.whyMemoryOnly();
  if (why !== undefined)
    tell(
      `This browser does not let the studio keep the job (${why}). It lasts as long as ` +
        'this page stays open: save the sheet before you close it.',
    );
  const loaded = await openLast(studio).catch(() => undefined);
  if (loaded?.kind === 'job' && !isEmptyDemo(loaded.job)) return;
  if (loaded?.kind === 'damaged') {
    const [newest] = loaded.setAside;
    await keeper.begin();
    tell(
      `The job kept from last time could not be read, so a new one is open. ${newest?.reason ?? ''} ` +
        `Nothing was deleted: it lies in this browser's storage as “${newest?.keptAs ?? ''}”.`,
    );
  } else await firstVisit().catch(() => keeper.begin());
};

/**
 * Opens the kept job, or what a first visit shows when there is none. It does not wait for another tab that
 * stands in the way of the kept jobs. Never rejects.
 */
export const restore = (studio: Studio, firstVisit: () => Promise<void>): Promise<void> =>
  new Promise((resolve) => {
    studio.disk.jobs.onHeldUp((message) => {
      studio.tell(message);
      // A change could not be kept now.
      studio.document.setState({ lookOnly: message });
      resolve();
    });
    void openWhatIsKept(studio, firstVisit).finally(resolve);
  });

/** Empties the bin of old jobs, then removes pictures and woven files that no kept job has. Never rejects. */
export const sweepKept = async ({ disk: { jobs, frames, runs } }: Studio): Promise<void> => {
  // Without the kept jobs it is not known which pictures are needed.
  if ((await jobs.whyMemoryOnly()) !== undefined) return;
  try {
    await frames.sweep(async () => {
      await jobs.emptyBin();
      return jobs.keptPixelIds();
    });
    if (await isAloneWithScratch()) {
      const kept = [...(await jobs.listJobs()), ...(await jobs.listBin())];
      const ids = new Set(kept.map(({ id }) => id));
      const { isDemoOwner } = await import('../weave/left.ts');
      await (await runs()).sweep((owner) => isDemoOwner(owner) || ids.has(owner));
    }
  } catch {
    // It is tried again at the next start.
  }
};
