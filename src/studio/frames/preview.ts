/** A picture large enough to lay it by eye. */
import { lookAt } from '../../calls/frames.ts';
import { messageOf } from '../../contract/errors.ts';
import type { Frame } from '../../job/schema/job.ts';
import type { Studio } from '../studio.ts';

/** Longest side: twice what the screen shows of it, for a closer look. */
const PREVIEW_PX = 1600;

/** Undefined where it was stopped or cannot be read; the latter is noted. */
export const previewOf = async (
  { document, disk, notes }: Studio,
  { id, name }: Frame,
  signal: AbortSignal,
): Promise<Blob | undefined> => {
  const { exposureStops } = document.getState().job;
  try {
    const file = await disk.frames.open(id, name);
    const outcome = await lookAt(file, name, { exposureStops }, { signal, px: PREVIEW_PX });
    return outcome.done ? outcome.value.thumbnail : undefined;
  } catch (error) {
    if (!signal.aborted) notes.problem(messageOf(error), name);
    return undefined;
  }
};
