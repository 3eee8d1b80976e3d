/**
 * Thumbnails of frames, each read from the disk when it is first to be seen, so that thousands of frames cost no
 * more than those in view; made again when the exposure of scene-linear frames changes.
 */
import { lookAt } from '../../calls/frames.ts';
import { messageOf } from '../../contract/errors.ts';
import type { Frame } from '../../job/schema/job.ts';
import type { Floor } from '../floor.ts';
import type { Notes } from './notes.ts';

/** Thumbnails that come within this time are shown together: whoever shows one is drawn anew each time. */
const TOGETHER_MS = 50;
/** Longer than the pause between two steps of a slider: a drag makes thumbnails once. */
const SETTLE_MS = 300;

export const createThumbnails = ({ document, work, disk }: Floor, notes: Notes) => {
  /** Frames whose thumbnail was asked for. */
  const wanted = new Set<string>();
  /** Come, but not told of yet. */
  const come = new Map<string, string>();
  let started = false;
  let halt = new AbortController();
  let timer: ReturnType<typeof setTimeout> | undefined;
  let shownStops: number | undefined;

  const tell = (): void => {
    const { thumbnails } = work.getState();
    const before = [...come.keys()].flatMap((id) => thumbnails.get(id) ?? []);
    work.setState({ thumbnails: new Map([...thumbnails, ...come]) });
    come.clear();
    for (const address of before) URL.revokeObjectURL(address);
  };

  /** A new picture of a frame; one that nobody has asked for yet stays where frames are kept. */
  const show = (id: string, thumbnail: Blob): void => {
    if (!wanted.has(id)) return;
    if (come.size === 0) setTimeout(tell, TOGETHER_MS);
    const overtaken = come.get(id);
    come.set(id, URL.createObjectURL(thumbnail));
    if (overtaken !== undefined) URL.revokeObjectURL(overtaken);
  };

  const want = async ({ id, name }: Frame): Promise<void> => {
    if (wanted.has(id)) return;
    wanted.add(id);
    const { exposureStops } = document.getState().job;
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
    // Thumbnails on the disk have the exposure that the job was kept with.
    shownStops ??= job.exposureStops;
    if (job.exposureStops === shownStops) return;
    shownStops = job.exposureStops;
    exposeAnew();
  };

  return {
    show,

    /** Asks for the frame's picture, which is shown when it has come. */
    want: (frame: Frame): void => void want(frame),

    /** Follows the document's exposure from now on. Only the first call has an effect. */
    start: (): void => {
      if (started) return;
      started = true;
      document.subscribe(follow);
      follow();
    },
  };
};
