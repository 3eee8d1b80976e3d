/** Waits until the open job's frames are prepared. */
import { StudioError } from '../../contract/errors.ts';
import type { FrameStack } from '../../contract/weave.ts';
import type { Job } from '../../job/schema/job.ts';
import type { Studio } from '../studio.ts';
import { signatureOf, stackOf } from './stack.ts';

/** Three channels of 16 bits. */
const BYTES_PER_SAMPLE = 6;
const FAULTS_SAID_AT_MOST = 3;

/** The first faults; the findings list all of them. */
const sayFaults = (prepareFaults: ReadonlyMap<string, string>): string => {
  const faults = [...prepareFaults.values()];
  const more = faults.length - FAULTS_SAID_AT_MOST;
  return (
    faults.slice(0, FAULTS_SAID_AT_MOST).join(' ') +
    (more > 0 ? ` The findings name ${more} more.` : '')
  );
};

/**
 * Prepares frames again that a browser short of disk space, or a person who clears its data, has deleted. Only
 * a frame that is deleted during the weave goes unnoticed.
 */
const renewLost = async ({ work, preparing }: Studio): Promise<void> => {
  const gone = new Set<string>();
  await Promise.all(
    [...work.getState().prepared].map(async ([id, { frame }]) => {
      const lastSample = frame.pixels.slice(-BYTES_PER_SAMPLE);
      await lastSample.arrayBuffer().catch(() => gone.add(id));
    }),
  );
  if (gone.size > 0) preparing.anew(gone);
};

const jobOvertaken = () =>
  new StudioError(
    'internal',
    'The job was changed before its frames were ready, so nothing was woven. Press “Weave sheet” again.',
  );

/** Resolves with undefined when stopped or when a frame has a fault. */
const waitForStack = (
  { document, work }: Studio,
  job: Job,
  signal: AbortSignal,
): Promise<FrameStack | undefined> =>
  new Promise((resolve, reject) => {
    const signatureNow = (of: Job) => signatureOf(of, work.getState().wholeParallax);
    const signature = signatureNow(job);
    const settle = () => {
      const { prepared, prepareFaults, wholeParallax } = work.getState();
      const stack = stackOf(job, prepared, wholeParallax);
      const overtaken = signatureNow(document.getState().job) !== signature;
      if (stack === undefined && prepareFaults.size === 0 && !signal.aborted && !overtaken) return;
      for (const end of endings) end();
      if (signal.aborted) resolve(undefined);
      else if (stack === undefined && overtaken) reject(jobOvertaken());
      else resolve(stack);
    };
    signal.addEventListener('abort', settle);
    const endings = [
      work.subscribe(settle),
      document.subscribe(settle),
      () => signal.removeEventListener('abort', settle),
    ];
    settle();
  });

/**
 * The open job's frames once all are prepared; undefined when stopped.
 * @throws StudioError if a frame has a fault, or the job is changed meanwhile and its old state is no longer
 *   prepared.
 */
export const untilPrepared = async (
  studio: Studio,
  job: Job,
  signal: AbortSignal,
): Promise<FrameStack | undefined> => {
  await renewLost(studio);
  const stack = await waitForStack(studio, job, signal);
  if (stack !== undefined || signal.aborted) return stack;
  throw new StudioError(
    'internal',
    `It cannot be woven: ${sayFaults(studio.work.getState().prepareFaults)}`,
  );
};
