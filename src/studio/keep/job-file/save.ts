/** Saves the job with its pictures in one file. Loaded when needed. */
import { messageOf } from '../../../contract/errors.ts';
import type { Sink } from '../../../contract/sink.ts';
import { nameInText } from '../../../core/names/shown.ts';
import type { Original } from '../../../files/bundle.ts';
import { BUNDLE_MIME, inMegabytes } from '../../../files/bundle.ts';
import { writeBundle } from '../../../files/bundle-write.ts';
import type { FrameStore } from '../../../files/frame-store.ts';
import { askForFile, canChooseFile, openHandleSink, openKeptFile } from '../../../files/sinks.ts';
import { withGuestNames } from '../../../job/facts/gang.ts';
import type { Job } from '../../../job/schema/job.ts';
import { filledName } from '../../../job/facts/made.ts';
import {
  besidesPictures,
  holesIdsOf,
  pixelIdsOf,
  withHolesThatAre,
} from '../../../job/facts/pixels.ts';
import type { Studio } from '../../studio.ts';
import { download } from '../download.ts';
import { profileToCarry } from './carry-profile.ts';
import type { JobFileNotice } from './progress.ts';

/** The file dialog accepts only extensions with one dot. */
const fileType = { description: 'Tiltloom job', mimeType: BUNDLE_MIME, extension: '.zip' };

/**
 * The job without pictures of filled places that the browser no longer has, and with the names of the other
 * jobs on its lens sheet, which are not in its file.
 */
const asSaved = async ({ disk: { frames, jobs } }: Studio, job: Job): Promise<Job> => {
  const gone = new Set(await frames.missing(holesIdsOf(job)));
  const whole = withHolesThatAre(job, (id) => !gone.has(id));
  if (job.gang?.guests === undefined) return whole;
  const listed = await jobs.listJobs().catch(() => []);
  return withGuestNames(whole, new Map(listed.map(({ id, name }) => [id, name])));
};

const originalsOf = (frames: FrameStore, job: Job): Promise<Original[]> => {
  const names = new Map(job.frames.map(({ id, name }) => [id, name]));
  for (const [index, { photoId }] of (job.trials ?? []).entries())
    if (photoId !== undefined) names.set(photoId, `the photo of trial ${index + 1}`);
  for (const { name, made } of job.frames)
    if (made?.holesId !== undefined) names.set(made.holesId, filledName(name));
  if (job.stage !== undefined) names.set(job.stage.sceneId, job.stage.sceneName);
  return Promise.all(
    pixelIdsOf(job).map(async (id) => {
      const name = names.get(id) ?? id;
      return { id, name, file: await frames.open(id, name) };
    }),
  );
};

const told = (fileName: string, bytes: number, pictures: number, href?: string): JobFileNotice => ({
  kind: 'info',
  title: 'The job is saved',
  text:
    `${nameInText(fileName)}, ${inMegabytes(bytes)}, with ${pictures} ${pictures === 1 ? 'picture' : 'pictures'}.` +
    (href === undefined ? '' : ' Your browser puts it where it puts its downloads.'),
  ...(href === undefined ? {} : { href, fileName }),
});

const onFault = (error: unknown): JobFileNotice => ({
  kind: 'problem',
  title: 'The job file was not saved',
  text: messageOf(error),
});

/** Undefined if the person chooses none. */
const askFor = async ({ jobFile }: Studio, name: string) => {
  try {
    return await jobFile.whileAsking(() => askForFile(name, fileType));
  } catch (error) {
    jobFile.say(onFault(error));
    return undefined;
  }
};

/** @param anew Save as: asks for a file even if one was chosen before. */
export const saveJobFile = async (studio: Studio, anew: boolean): Promise<void> => {
  const { jobFile, jobFileMarks, disk } = studio;
  if (jobFile.isRunning()) return;
  const { job, jobId } = studio.document.getState();
  const suggested = jobFileMarks.fileNameFor(jobId, job);
  let place = anew ? undefined : jobFile.places.get(jobId);
  if (place === undefined && canChooseFile()) {
    // The dialog must open from the person's own click, before anything else is waited for.
    place = await askFor(studio, suggested);
    if (place === undefined) return;
  }
  await jobFile.run(
    async (signal) => {
      const fileName = place?.name ?? suggested;
      const report = jobFile.progressOf('saving', fileName);
      report(0, 1);
      const whole = await asSaved(studio, job);
      const originals = await originalsOf(disk.frames, whole);
      const kept = place === undefined ? await openKeptFile(fileName, BUNDLE_MIME) : undefined;
      const sink: Sink = kept ?? (await openHandleSink(place as FileSystemFileHandle));
      const outcome = await writeBundle(sink, whole, originals, new Date(), {
        signal,
        report,
        profile: await profileToCarry(studio, whole),
      });
      if (!outcome.done) return undefined;
      if (place !== undefined) jobFile.places.set(jobId, place);
      const href = kept === undefined ? undefined : await jobFile.addressOf(kept);
      if (href !== undefined) download(href, fileName);
      jobFileMarks.markSaved(jobId, job, fileName);
      const pictures = originals.length - besidesPictures(whole);
      return told(fileName, outcome.value.byteLength, pictures, href);
    },
    (error) => {
      // The file may have been moved or locked: the next save asks for another.
      jobFile.places.delete(jobId);
      return onFault(error);
    },
  );
};
