/** Opens a job file as a job of its own. Nothing changes until the whole file is found good. Loaded when needed. */
import { StudioError, messageOf, toWorkError } from '../../../contract/errors.ts';
import { keptSize } from '../../../core/frames/synth/filled-places.ts';
import type { FrameFacts } from '../../../contract/frames.ts';
import { nameInText } from '../../../core/names/shown.ts';
import type { Original } from '../../../files/bundle.ts';
import { refuse } from '../../../files/bundle.ts';
import type { OpenedBundle } from '../../../files/bundle-read.ts';
import { readBundle } from '../../../files/bundle-read.ts';
import type { FrameStore } from '../../../files/frame-store.ts';
import { newId } from '../../../files/new-id.ts';
import { untakenJobName } from '../../../job/facts/free-name.ts';
import { absentGuests } from '../../../job/facts/gang.ts';
import type { Frame, Job } from '../../../job/schema/job.ts';
import { besidesPictures } from '../../../job/facts/pixels.ts';
import { restoreJob } from '../../../job/schema/migrate.ts';
import { renamed } from '../../../job/schema/renamed.ts';
import { lookAt } from '../../../calls/frames.ts';
import type { Studio } from '../../studio.ts';
import { askOnceToKeep } from '../ask-to-keep.ts';
import { keepCarried } from './carry-profile.ts';
import type { JobFileNotice } from './progress.ts';

interface Looked {
  readonly original: Original;
  /** Undefined for the scene, which the stage reads when it is shown. */
  readonly facts: FrameFacts | undefined;
}

/** Decodes every picture. Undefined when stopped. */
const lookAtAll = async (
  { job, originals }: OpenedBundle,
  fileName: string,
  report: (done: number, total: number) => void,
  stop: AbortSignal,
): Promise<Looked[] | undefined> => {
  let done = 0;
  report(0, originals.length);
  // A bad picture stops the decoding of the others.
  const own = new AbortController();
  const signal = AbortSignal.any([stop, own.signal]);
  try {
    const looked = await Promise.all(
      originals.map(async (original) => {
        const { exposureStops, stage } = job;
        if (original.id === stage?.sceneId) return { original, facts: undefined };
        const outcome = await lookAt(original.file, original.name, { exposureStops }, { signal });
        done += 1;
        if (outcome.done && !signal.aborted) report(done, originals.length);
        return outcome.done ? { original, facts: outcome.value } : undefined;
      }),
    );
    const whole = looked.filter((one) => one !== undefined);
    return stop.aborted || whole.length < looked.length ? undefined : whole;
  } catch (error) {
    const { code, message } = toWorkError(error);
    if (code === 'worker-lost' || code === 'internal') throw error;
    throw refuse(fileName, `A picture in it cannot be used: ${message}`);
  } finally {
    own.abort();
  }
};

/** A picture of filled places must have its frame's shape, or it would mark the wrong places. */
const checkHoles = (
  { name, widthPx, heightPx, made }: Frame,
  byId: ReadonlyMap<string, Looked>,
  fileName: string,
): void => {
  const found = byId.get(made?.holesId ?? '');
  if (found === undefined) return;
  const { facts } = found;
  if (facts === undefined)
    throw refuse(fileName, `The filled places of ${nameInText(name)} in it are no picture.`);
  const { columns, rows } = keptSize(widthPx, heightPx);
  if (facts.widthPx !== columns || facts.heightPx !== rows)
    throw refuse(
      fileName,
      `The filled places of ${nameInText(name)} in it are ${facts.widthPx} × ${facts.heightPx}; ${columns} × ${rows} would lie on that frame.`,
    );
};

/** The job with the facts of its pictures. Refuses pictures whose size differs from the job's. */
const measured = (job: Job, looked: readonly Looked[], fileName: string): Job => {
  const byId = new Map(looked.map((one) => [one.original.id, one]));
  const frames = job.frames.map((frame) => {
    checkHoles(frame, byId, fileName);
    const found = byId.get(frame.id);
    if (found?.facts === undefined) return frame;
    const { widthPx, heightPx, kind, sceneLinear, meanLight, fingerprint } = found.facts;
    if (widthPx !== frame.widthPx || heightPx !== frame.heightPx)
      throw refuse(
        fileName,
        `The picture ${nameInText(frame.name)} in it is ${widthPx} × ${heightPx} pixels, and ${frame.widthPx} × ${frame.heightPx} by the job.`,
      );
    const byteLength = found.original.file.size;
    return { ...frame, byteLength, kind, sceneLinear, meanLight, fingerprint };
  });
  // A demo that came in a file is the person's own.
  const { demo: _demo, ...own } = job;
  return { ...own, frames };
};

/** Pictures get new ids, so that none replaces a picture of another job. */
const underNewIds = (job: Job, looked: readonly Looked[], fileName: string) => {
  const ids = new Map(looked.map(({ original }) => [original.id, newId()]));
  const restored = restoreJob(renamed(job, ids));
  if (!restored.ok) throw refuse(fileName, `The job in it cannot be read. ${restored.reason}`);
  return { job: restored.job, ids };
};

const keepAll = async (
  frames: FrameStore,
  looked: readonly Looked[],
  ids: ReadonlyMap<string, string>,
): Promise<void> => {
  const kept = await Promise.allSettled(
    looked.map(({ original, facts }) =>
      frames.keep(
        ids.get(original.id) ?? '',
        original.name,
        original.file,
        facts?.thumbnail ?? new Blob(['-']),
      ),
    ),
  );
  const fault = kept.find((one) => one.status === 'rejected');
  if (fault !== undefined) throw fault.reason as Error;
};

const onFault =
  (fileName: string) =>
  (error: unknown): JobFileNotice => {
    const { code, message } = toWorkError(error);
    return {
      kind: 'problem',
      title: 'The job file was not opened',
      text:
        code === 'no-room'
          ? `There is no room on the browser’s disk for the pictures in “${nameInText(fileName)}”. Free some room under Jobs, then open it again. Your work is as it was.`
          : message,
    };
  };

const keptAlone = (jobName: string, why: string): StudioError =>
  new StudioError(
    'internal',
    `“${nameInText(jobName)}” lies under Jobs now, but was not opened in the place of the open job. ${why}`,
  );

/** A note on the other jobs of its lens sheet that are not kept here. */
const absentHere = async ({ disk: { jobs } }: Studio, job: Job): Promise<string> => {
  if (job.gang?.on !== true) return '';
  const kept = new Set((await jobs.listJobs()).map(({ id }) => id));
  const absent = absentGuests(job, (id) => kept.has(id));
  if (absent.length === 0) return '';
  return ` Its lens sheet also holds ${absent.join(', ')}: not kept here, so left out until opened from a file too.`;
};

/** Names of the kept jobs. The open job's present name may not be on the disk yet. */
const namesHere = async ({ document, disk: { jobs } }: Studio): Promise<Set<string>> => {
  const { job, jobId } = document.getState();
  const others = (await jobs.listJobs()).filter(({ id }) => id !== jobId);
  return new Set([job.name, ...others.map(({ name }) => name)]);
};

interface Kept {
  readonly jobId: string;
  readonly job: Job;
  /** The name in the file, if another kept job has that name. */
  readonly namedInFile: string | undefined;
}

/** Keeps the job of a file with its pictures: all of it or nothing. */
const keepJob = async (
  studio: Studio,
  asFound: Job,
  looked: readonly Looked[],
  fileName: string,
): Promise<Kept> => {
  const { jobs, frames } = studio.disk;
  const { job: asNamed, ids } = underNewIds(asFound, looked, fileName);
  const job = { ...asNamed, name: untakenJobName(asNamed.name, await namesHere(studio)) };
  const namedInFile = job.name === asNamed.name ? undefined : asNamed.name;
  try {
    await keepAll(frames, looked, ids);
    return { jobId: await jobs.createJob(job, 'as it was opened'), job, namedInFile };
  } catch (error) {
    await frames.remove(ids.values());
    throw error;
  }
};

const open = async (
  studio: Studio,
  file: File,
  signal: AbortSignal,
): Promise<JobFileNotice | undefined> => {
  const { keeper, jobFile, jobFileMarks } = studio;
  const { name } = file;
  studio.tasks.nothingUnderWay();
  const reading = jobFile.progressOf('reading', name);
  const outcome = await readBundle(file, name, { signal, report: reading });
  if (!outcome.done) return undefined;
  const looking = jobFile.progressOf('looking', name);
  const looked = await lookAtAll(outcome.value, name, looking, signal);
  if (looked === undefined) return undefined;
  const asFound = measured(outcome.value.job, looked, name);
  const { jobId, job, namedInFile } = await keepJob(studio, asFound, looked, name);
  keeper.listChanged();
  const absent =
    (await absentHere(studio, job)) + (await keepCarried(studio, job, outcome.value.profile));
  const loaded = await keeper.open(jobId).catch((error: unknown) => {
    throw keptAlone(job.name, messageOf(error));
  });
  if (loaded.kind !== 'job') throw keptAlone(job.name, 'It could not be read.');
  jobFileMarks.markSaved(jobId, studio.document.getState().job, name);
  if (looked.length > 0) void askOnceToKeep();
  const count = looked.length - besidesPictures(job);
  const pictures = count === 1 ? '1 picture' : `${count} pictures`;
  const beside =
    namedInFile === undefined
      ? ''
      : ` Another “${nameInText(namedInFile)}” is kept there, so this one has a number.`;
  return {
    kind: 'info',
    title: `“${nameInText(job.name)}” is open`,
    text: `From ${nameInText(name)}, with ${pictures}, as a job of its own. The one before is kept under Jobs.${beside}${absent}`,
  };
};

export const openJobFile = (studio: Studio, file: File): Promise<void> =>
  studio.jobFile.run((signal) => open(studio, file, signal), onFault(file.name));
