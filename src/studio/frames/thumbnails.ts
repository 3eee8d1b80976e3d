/**
 * Keeps a thumbnail of every frame of the job: reads it from the disk after a reload or an undo, and makes it
 * again when the exposure of scene-linear frames changes.
 */
import { lookAt } from '../../calls/frames.ts';
import { messageOf } from '../../contract/errors.ts';
import type { Frame } from '../../job/schema/job.ts';
import type { Floor } from '../floor.ts';
import type { Notes } from './notes.ts';

/** Longer than the pause between two steps of a slider: a drag makes thumbnails once. */
const SETTLE_MS = 300;

export const createThumbnails = ({ document, work, disk }: Floor, notes: Notes) => {
  /** Frames whose thumbnail was asked for. */
  const wanted = new Set<string>();
  let started = false;
  let halt = new AbortController();
  let timer: ReturnType<typeof setTimeout> | undefined;
  let shownStops: number | undefined;

  const show = (id: string, thumbnail: Blob): void => {
    const { thumbnails } = work.getState();
    const before = thumbnails.get(id);
    work.setState({ thumbnails: new Map(thumbnails).set(id, URL.createObjectURL(thumbnail)) });
    if (before !== undefined) URL.revokeObjectURL(before);
  };

  const bringBack = async ({ id, name }: Frame, exposureStops: number): Promise<void> => {
    if (wanted.has(id)) return;
    wanted.add(id);
    try {
      const original = await disk.frames.open(id, name);
      const kept = await disk.frames.openThumbnail(id);
      if (kept !== undefined) return show(id, kept);
      const outcome = await lookAt(original, name, { exposureStops });
      if (outcome.done) show(id, outcome.value.thumbnail);
    } catch (error) {
      notes.problem(messageOf(error), name);
    }
  };

  const expose = async (
    { id, name }: Frame,
    exposureStops: number,
    signal: AbortSignal,
  ): Promise<void> => {
    try {
      const file = await disk.frames.open(id, name);
      const outcome = await lookAt(file, name, { exposureStops }, { signal });
      if (!outcome.done || signal.aborted) return;
      const { thumbnail } = outcome.value;
      show(id, thumbnail);
      await disk.frames.keepThumbnail(id, name, thumbnail);
    } catch {
      // The old thumbnail stays. Preparing the frame reports that its file cannot be read.
    }
  };

  const exposeAnew = (): void => {
    halt.abort();
    clearTimeout(timer);
    halt = new AbortController();
    const { signal } = halt;
    timer = setTimeout(() => {
      const { frames, exposureStops } = document.getState().job;
      for (const frame of frames) if (frame.sceneLinear) void expose(frame, exposureStops, signal);
    }, SETTLE_MS);
  };

  const follow = (): void => {
    const { job, ready } = document.getState();
    if (!ready) return;
    const { thumbnails } = work.getState();
    for (const frame of job.frames)
      if (!thumbnails.has(frame.id)) void bringBack(frame, job.exposureStops);
    // Thumbnails on the disk have the exposure that the job was kept with.
    shownStops ??= job.exposureStops;
    if (job.exposureStops === shownStops) return;
    shownStops = job.exposureStops;
    exposeAnew();
  };

  return {
    show,

    /** Follows the document from now on. Only the first call has an effect. */
    start: (): void => {
      if (started) return;
      started = true;
      document.subscribe(follow);
      follow();
    },
  };
};
