/** Waiting for a job's frames to be prepared, and why they are not. */
import { StudioError } from '../../contract/errors.ts';
import type { FrameStack } from '../../contract/weave.ts';
import type { Job } from '../../job/schema/job.ts';
import { documentStore } from '../../state/document.ts';
import { workStore } from '../../state/work.ts';
import { prepareAnew, signatureOf, stackOf } from './keep-prepared.ts';

/** Three channels of 16 bits. */
const BYTES_PER_SAMPLE = 6;
const FAULTS_SAID_AT_MOST = 3;

/** Why frames could not be prepared; the findings say it of each. */
export const sayPrepareFaults = (): string => {
  const faults = [...workStore.getState().prepareFaults.values()];
  const more = faults.length - FAULTS_SAID_AT_MOST;
  return (
    faults.slice(0, FAULTS_SAID_AT_MOST).join(' ') +
    (more > 0 ? ` The findings name ${more} more.` : '')
  );
};

/**
 * A browser that makes room, or a person who clears its data, takes prepared frames from under the
 * studio: they are looked for before they are woven, so that only one that goes meanwhile is missed.
 */
const renewLost = async (): Promise<void> => {
  const { prepared } = workStore.getState();
  const gone = new Set<string>();
  await Promise.all(
    [...prepared].map(async ([id, { frame }]) => {
      const lastSample = frame.pixels.slice(-BYTES_PER_SAMPLE);
      await lastSample.arrayBuffer().catch(() => gone.add(id));
    }),
  );
  if (gone.size > 0) prepareAnew(gone);
};

/**
 * The job's frames once they are all prepared; undefined when that was stopped or a frame has a
 * fault. Throws StudioError when the job is changed meanwhile, for then nobody prepares the old one.
 */
export const untilPrepared = async (
  job: Job,
  signal: AbortSignal,
): Promise<FrameStack | undefined> => {
  await renewLost();
  return new Promise((resolve, reject) => {
    const signature = signatureOf(job);
    const settle = () => {
      const { prepared, prepareFaults } = workStore.getState();
      const stack = stackOf(job, prepared);
      const overtaken = signatureOf(documentStore.getState().job) !== signature;
      if (stack === undefined && prepareFaults.size === 0 && !signal.aborted && !overtaken) return;
      for (const end of endings) end();
      if (signal.aborted) resolve(undefined);
      else if (stack === undefined && overtaken) reject(jobOvertaken());
      else resolve(stack);
    };
    const onAbort = () => settle();
    signal.addEventListener('abort', onAbort);
    const endings = [
      workStore.subscribe(settle),
      documentStore.subscribe(settle),
      () => signal.removeEventListener('abort', onAbort),
    ];
    settle();
  });
};

const jobOvertaken = () =>
  new StudioError(
    'internal',
    'The job was changed before its frames were ready, so nothing was woven. Press “Weave sheet” again.',
  );
