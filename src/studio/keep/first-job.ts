/** What a visit opens with: the job that was open last, or the first visit's. */
import { frameStore } from '../../files/frame-store.ts';
import { jobStore } from '../../files/job-store.ts';
import { documentStore } from '../../state/document.ts';
import { beginJob, openKeptJob, tell } from './job-keeper.ts';
import { lastOpen } from './last-open.ts';

export { startKeeping } from './job-keeper.ts';

/** Opens the job that was open last, else the newest. Undefined where there is none. */
const openLast = async () => {
  const kept = await jobStore.listJobs();
  const known = new Set(kept.map(({ id }) => id));
  const [first] = [...lastOpen().filter((id) => known.has(id)), ...known];
  return first === undefined ? undefined : openKeptJob(first);
};

const openWhatIsKept = async (firstVisit: () => Promise<void>): Promise<void> => {
  const why = await jobStore.whyMemoryOnly();
  if (why !== undefined)
    tell(
      `This browser does not let the studio keep the job (${why}). It lasts as long as ` +
        'this page stays open: save the sheet before you close it.',
    );
  const loaded = await openLast().catch(() => undefined);
  if (loaded?.kind === 'job') return;
  if (loaded?.kind === 'damaged') {
    const [newest] = loaded.setAside;
    await beginJob();
    tell(
      `The job kept from last time could not be read, so a new one is open. ${newest?.reason ?? ''} ` +
        `Nothing was deleted: it lies in this browser's storage as “${newest?.keptAs ?? ''}”.`,
    );
  } else void beginJob(firstVisit);
};

/**
 * Opens the kept job, or sets `firstVisit` going when there is none: that one is not waited for, nor is
 * another tab that stands in the way of the kept jobs. Never rejects.
 */
export const restore = (firstVisit: () => Promise<void>): Promise<void> =>
  new Promise((resolve) => {
    jobStore.onHeldUp((message) => {
      tell(message);
      // What was changed now would have nowhere to go.
      documentStore.setState({ lookOnly: message });
      resolve();
    });
    void openWhatIsKept(firstVisit).finally(resolve);
  });

/** Ends what has lain in the bin for long, then every picture that no kept job names. Never rejects. */
export const sweepKept = async (): Promise<void> => {
  // Without the kept jobs nobody can say which pictures are nobody's.
  if ((await jobStore.whyMemoryOnly()) !== undefined) return;
  try {
    await frameStore.sweep(async () => {
      await jobStore.emptyBin();
      return jobStore.keptPixelIds();
    });
  } catch {
    // Next time, then.
  }
};
