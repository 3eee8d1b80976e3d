/** Waits until the open job's frames are prepared. */
import { StudioError } from '../../contract/errors.ts';
import type { FrameStack } from '../../contract/weave.ts';
import { softenKeyOf } from '../../job/facts/soften.ts';
import type { Job } from '../../job/schema/job.ts';
import type { Studio } from '../studio.ts';
import type { PreparedJob } from './prepare-job.ts';
import { prepareJob } from './prepare-job.ts';
import { signatureOf, stackOf } from './stack.ts';
import { waitFor } from './wait-for.ts';

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

const unmeasured = () =>
  new StudioError(
    'internal',
    'The job was changed before its frames were ready, and what they were to be softened by went with the change. ' +
      'Nothing was woven: weave it again.',
  );

interface Awaited {
  /** Undefined when it was stopped or a frame has a fault. */
  readonly stack: FrameStack | undefined;
  /** The job is another by now, so that nobody prepares this one any more. */
  readonly isOvertaken: boolean;
}

const stackAwaited = (studio: Studio, job: Job, signal: AbortSignal): Promise<Awaited> => {
  const { document, work } = studio;
  const signatureNow = (of: Job) => signatureOf(of, work.getState().wholeParallax);
  const signature = signatureNow(job);
  return waitFor(studio, signal, () => {
    if (signal.aborted) return { stack: undefined, isOvertaken: false };
    const { prepared, prepareFaults, wholeParallax } = work.getState();
    const stack = stackOf(job, prepared, wholeParallax);
    const isOvertaken = signatureNow(document.getState().job) !== signature;
    if (stack === undefined && prepareFaults.size === 0 && !isOvertaken) return undefined;
    return { stack, isOvertaken };
  });
};

const nothingHeld = () => undefined;

/**
 * A job's frames once they are all prepared; undefined when that was stopped. While the job is the open one, they are
 * those that the proof shows; once it has been changed they are prepared as it stood, for this file alone.
 * @throws StudioError when a frame has a fault
 */
export const untilPrepared = async (
  studio: Studio,
  job: Job,
  signal: AbortSignal,
): Promise<PreparedJob | undefined> => {
  const softened = softenKeyOf(job, studio.work.getState().wholeParallax);
  await renewLost(studio);
  const { stack, isOvertaken } = await stackAwaited(studio, job, signal);
  if (stack === undefined && isOvertaken) {
    if (softenKeyOf(job, studio.work.getState().wholeParallax) !== softened) throw unmeasured();
    const own = await prepareJob(studio, job, signal);
    return own.done ? own.value : undefined;
  }
  if (stack !== undefined) return { stack, letGo: nothingHeld };
  if (signal.aborted) return undefined;
  throw new StudioError(
    'internal',
    `It cannot be woven: ${sayFaults(studio.work.getState().prepareFaults)}`,
  );
};
