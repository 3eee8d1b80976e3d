/** Reads where a made frame was filled, from the picture kept with the frame. */
import { readFilled } from '../../../calls/synth.ts';
import type { FilledPlaces } from '../../../core/frames/synth/filled-places.ts';
import { filledName } from '../../../job/facts/made.ts';
import type { Studio } from '../../studio.ts';

/**
 * Undefined if the browser no longer holds the picture or cannot read it: the job still says how much was
 * filled. Never rejects.
 */
export const readFilledPlaces = async (
  { disk }: Studio,
  holesId: string,
  frameName: string,
  signal: AbortSignal,
): Promise<FilledPlaces | undefined> => {
  const name = filledName(frameName);
  try {
    const outcome = await readFilled(await disk.frames.open(holesId, name), name, signal);
    return outcome.done ? outcome.value : undefined;
  } catch {
    return undefined;
  }
};
