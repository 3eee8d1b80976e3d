/** Between the document and the browser's disk: lays the kept job in, then keeps every change. */
import { loadJob, saveJob, saveJobAtOnce } from '../../files/job-store.ts';
import type { Job } from '../../job/job.ts';
import { newJob } from '../../job/job.ts';
import { documentStore } from '../../state/document.ts';
import { workStore } from '../../state/work.ts';

/** Long enough to fold typing into one write, short enough to lose nothing worth a word. */
const SETTLE_MS = 400;

/** A sentence at the head of the page until it is put away. */
const tell = (message: string) => workStore.getState().set({ deskNotice: message });

/** The page is drawn meanwhile. Whatever becomes of it, there is a job in the end. */
const beginFirstJob = async (firstVisit: () => Promise<void>) => {
  await firstVisit().catch(() => undefined);
  if (!documentStore.getState().ready) documentStore.getState().open(newJob());
};

/**
 * Opens the kept job, or sets `firstVisit` going when there is none: that one is not waited for.
 * Never throws.
 */
export const restore = async (firstVisit: () => Promise<void>): Promise<void> => {
  const kept = await loadJob();
  if (kept.kind === 'job') documentStore.getState().open(kept.job);
  else if (kept.kind === 'damaged') {
    documentStore.getState().open(newJob());
    tell(
      `The job kept from last time could not be read, so a new one is open. ${kept.reason} ` +
        `Nothing was deleted: it lies in this browser's storage as “${kept.keptAs}”.`,
    );
  } else {
    if (kept.kind === 'memory-only')
      tell(
        `This browser does not let the studio keep the job (${kept.reason}). It lasts as long as ` +
          'this page stays open: save the sheet before you close it.',
      );
    void beginFirstJob(firstVisit);
  }
};

/** Keeps the job from now on; at once when the page is about to go. Returns what ends it. */
export const startKeeping = (): (() => void) => {
  let timer: ReturnType<typeof setTimeout> | undefined;
  let unsaved: Job | undefined;
  const flush = (save: (job: Job) => Promise<void>) => {
    clearTimeout(timer);
    if (unsaved === undefined) return;
    const job = unsaved;
    unsaved = undefined;
    save(job).catch((error: unknown) =>
      tell(
        `The job could not be kept on this computer (${error instanceof Error ? error.message : String(error)}). ` +
          'It is still open here. Free some disk space, then change any field to try again.',
      ),
    );
  };
  const { job: first, ready } = documentStore.getState();
  if (ready) saveJob(first).catch(() => undefined);
  const forget = documentStore.subscribe(({ job }, before) => {
    if (job === before.job) return;
    unsaved = job;
    clearTimeout(timer);
    timer = setTimeout(() => flush(saveJob), SETTLE_MS);
  });
  const onGoing = () => flush(saveJobAtOnce);
  const onHide = () => {
    if (document.visibilityState === 'hidden') onGoing();
  };
  addEventListener('pagehide', onGoing);
  document.addEventListener('visibilitychange', onHide);
  return () => {
    onGoing();
    forget();
    removeEventListener('pagehide', onGoing);
    document.removeEventListener('visibilitychange', onHide);
  };
};
