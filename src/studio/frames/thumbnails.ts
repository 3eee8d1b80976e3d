/**
 * Keeps a small picture to show for every frame of the job: brought back from the disk after a reload
 * or an undo, and made anew when the exposure of scene-linear frames changes.
 */
import { frameStore } from '../../files/frame-store.ts';
import type { Frame, Job } from '../../job/schema/job.ts';
import { lookAt } from '../../calls/frames.ts';
import { documentStore } from '../../state/document.ts';
import { workStore } from '../../state/work.ts';
import { noteProblem } from './notes.ts';

/** Longer than between two notches of a slider. */
const SETTLE_MS = 300;

export const showThumbnail = (id: string, thumbnail: Blob): void => {
  const { thumbnails, set } = workStore.getState();
  const before = thumbnails.get(id);
  set({ thumbnails: new Map(thumbnails).set(id, URL.createObjectURL(thumbnail)) });
  if (before !== undefined) URL.revokeObjectURL(before);
};

const wanted = new Set<string>();

const bringBack = async (frame: Frame, exposureStops: number): Promise<void> => {
  if (wanted.has(frame.id)) return;
  wanted.add(frame.id);
  try {
    const original = await frameStore.open(frame.id, frame.name);
    const kept = await frameStore.openThumbnail(frame.id);
    if (kept !== undefined) return showThumbnail(frame.id, kept);
    const outcome = await lookAt(original, frame.name, { exposureStops });
    if (outcome.done) showThumbnail(frame.id, outcome.value.thumbnail);
  } catch (error) {
    noteProblem(error instanceof Error ? error.message : String(error), frame.name);
  }
};

const expose = async (frame: Frame, exposureStops: number, signal: AbortSignal): Promise<void> => {
  try {
    const file = await frameStore.open(frame.id, frame.name);
    const outcome = await lookAt(file, frame.name, { exposureStops }, { signal });
    if (!outcome.done || signal.aborted) return;
    const { thumbnail } = outcome.value;
    showThumbnail(frame.id, thumbnail);
    await frameStore.keepThumbnail(frame.id, frame.name, thumbnail);
  } catch {
    // The old thumbnail stays; that the frame itself cannot be read is told where it is prepared.
  }
};

let started = false;

/** Begins to follow the document. Only the first call has an effect. */
export const startThumbnails = (): void => {
  if (started) return;
  started = true;
  let halt = new AbortController();
  let timer: ReturnType<typeof setTimeout> | undefined;
  let shownStops: number | undefined;

  const follow = ({ job, ready }: { job: Job; ready: boolean }) => {
    if (!ready) return;
    const { thumbnails } = workStore.getState();
    for (const frame of job.frames)
      if (!thumbnails.has(frame.id)) void bringBack(frame, job.exposureStops);
    // Thumbnails from the disk were made for the exposure that the job was kept with.
    shownStops ??= job.exposureStops;
    if (job.exposureStops === shownStops) return;
    shownStops = job.exposureStops;
    halt.abort();
    clearTimeout(timer);
    halt = new AbortController();
    const { signal } = halt;
    timer = setTimeout(() => {
      const { frames, exposureStops } = documentStore.getState().job;
      for (const frame of frames) if (frame.sceneLinear) void expose(frame, exposureStops, signal);
    }, SETTLE_MS);
  };
  documentStore.subscribe(follow);
  follow(documentStore.getState());
};
