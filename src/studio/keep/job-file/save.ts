/** The job with its pictures into one file. Loaded when somebody saves. */
import { toWorkError } from '../../../contract/errors.ts';
import type { Sink } from '../../../contract/sink.ts';
import type { Original } from '../../../files/bundle.ts';
import { BUNDLE_MIME, inMegabytes } from '../../../files/bundle.ts';
import { writeBundle } from '../../../files/bundle-write.ts';
import { frameStore, openFrame } from '../../../files/frame-store.ts';
import { listJobs } from '../../../files/job-store.ts';
import type { KeptSink } from '../../../files/sinks.ts';
import { askForFile, canChooseFile, openHandleSink, openKeptFile } from '../../../files/sinks.ts';
import { withGuestNames } from '../../../job/facts/gang.ts';
import type { Job } from '../../../job/schema/job.ts';
import { filledName } from '../../../job/facts/made.ts';
import { holesIdsOf, pixelIdsOf, withHolesThatAre } from '../../../job/facts/pixels.ts';
import { documentStore } from '../../../state/document.ts';
import { carry, isCarrying, progressOf, sayCarried } from './progress.ts';
import type { CarryNotice } from './progress.ts';
import { fileNameFor, markSaved } from './marks.ts';

/** The dialog takes endings of one dot alone. */
const fileType = { description: 'Tiltloom job', mimeType: BUNDLE_MIME, extension: '.zip' };

/** By job: the file that was chosen for it, for as long as the page is open. */
const places = new Map<string, FileSystemFileHandle>();
/** The last one stays until the next is done: it may be on its way into a download. */
let last: { readonly kept: KeptSink; readonly href: string } | undefined;

/**
 * What the browser no longer has of where made frames were filled holds no job up. Other jobs on its
 * lens are not carried with it, so they are named.
 */
const carried = async (job: Job): Promise<Job> => {
  const gone = new Set(await frameStore.missing(holesIdsOf(job)));
  const whole = withHolesThatAre(job, (id) => !gone.has(id));
  if (job.gang?.guests === undefined) return whole;
  const listed = await listJobs().catch(() => []);
  return withGuestNames(whole, new Map(listed.map(({ id, name }) => [id, name])));
};

const originalsOf = (job: Job): Promise<Original[]> => {
  const names = new Map(job.frames.map(({ id, name }) => [id, name]));
  for (const [index, { photoId }] of (job.trials ?? []).entries())
    if (photoId !== undefined) names.set(photoId, `the photo of trial ${index + 1}`);
  for (const { name, made } of job.frames)
    if (made?.holesId !== undefined) names.set(made.holesId, filledName(name));
  return Promise.all(
    pixelIdsOf(job).map(async (id) => {
      const name = names.get(id) ?? id;
      return { id, name, file: await openFrame(id, name) };
    }),
  );
};

/** What the browser saves of itself, as if the person had followed a link. */
const download = (href: string, fileName: string): void => {
  const link = document.createElement('a');
  link.href = href;
  link.download = fileName;
  link.click();
};

const handOver = async (kept: KeptSink, fileName: string): Promise<string> => {
  const href = URL.createObjectURL(await kept.file());
  if (last !== undefined) {
    URL.revokeObjectURL(last.href);
    last.kept.discard().catch(() => undefined);
  }
  last = { kept, href };
  download(href, fileName);
  return href;
};

/** Says the file's size and where it went. */
const told = (fileName: string, bytes: number, pictures: number, href?: string): CarryNotice => ({
  kind: 'info',
  title: 'The job is saved',
  text:
    `${fileName}, ${inMegabytes(bytes)}, with ${pictures} ${pictures === 1 ? 'picture' : 'pictures'}.` +
    (href === undefined ? '' : ' Your browser puts it where it puts its downloads.'),
  ...(href === undefined ? {} : { href, fileName }),
});

const onFault = (error: unknown): CarryNotice => ({
  kind: 'problem',
  title: 'The job file was not saved',
  text: toWorkError(error).message,
});

/** A browser shows one dialog at a time, and refuses the second. */
let asking = false;
const askOnce = async (name: string): Promise<FileSystemFileHandle | undefined> => {
  asking = true;
  try {
    return await askForFile(name, fileType);
  } catch (error) {
    sayCarried(onFault(error));
    return undefined;
  } finally {
    asking = false;
  }
};

/** @param anew asks for a file also where one was chosen before. */
export const saveJobFile = async (anew: boolean): Promise<void> => {
  if (isCarrying() || asking) return;
  const { job, jobId } = documentStore.getState();
  let place = anew ? undefined : places.get(jobId);
  if (place === undefined && canChooseFile()) {
    // The dialog must open from the person's own click, before anything else is waited for.
    place = await askOnce(fileNameFor(jobId, job));
    if (place === undefined) return;
  }
  await carry(
    async (signal) => {
      const fileName = place?.name ?? fileNameFor(jobId, job);
      const report = progressOf('saving', fileName);
      report(0, 1);
      const whole = await carried(job);
      const originals = await originalsOf(whole);
      const kept = place === undefined ? await openKeptFile(fileName, BUNDLE_MIME) : undefined;
      const sink: Sink = kept ?? (await openHandleSink(place as FileSystemFileHandle));
      const outcome = await writeBundle(sink, whole, originals, new Date(), { signal, report });
      if (!outcome.done) return undefined;
      if (place !== undefined) places.set(jobId, place);
      const href = kept === undefined ? undefined : await handOver(kept, fileName);
      markSaved(jobId, job, fileName);
      const pictures = originals.length - holesIdsOf(whole).length;
      return told(fileName, outcome.value.byteLength, pictures, href);
    },
    (error) => {
      // A file that was moved or locked since: the next time another can be chosen.
      places.delete(jobId);
      return onFault(error);
    },
  );
};
