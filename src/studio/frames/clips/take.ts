/** Takes the chosen frames out of a clip; from there they go the way of all pictures that are handed over. */
import { takeFromClip } from '../../../calls/clip.ts';
import { stemOf } from '../../../core/frames/order.ts';
import { messageOf } from '../../../contract/errors.ts';
import type { Gathered } from '../../../files/arrivals.ts';
import type { Studio } from '../../studio.ts';
import { receive } from '../receive.ts';
import type { Clip } from './state.ts';

/** The clip's name without its ending, and the frame's number as the person counts: "pier 007.png". */
const frameName = (fileName: string, frame: number, total: number): string =>
  `${stemOf(fileName)} ${String(frame + 1).padStart(String(total).length, '0')}.png`;

const asArrivals = (
  { file }: Clip,
  frames: readonly number[],
  total: number,
  pictures: readonly Blob[],
): Gathered => ({
  arrivals: pictures.map((picture, at) => {
    const name = frameName(file.name, frames[at] ?? 0, total);
    return { name, path: name, file: new File([picture], name, { type: 'image/png' }) };
  }),
  jobFiles: [],
  clips: [],
  profiles: [],
  leftOut: [],
});

/** A stop leaves the clip as it was, to choose again. */
export const takeFrames = async (studio: Studio, clip: Clip): Promise<void> => {
  const { clips, tasks, document } = studio;
  const { id, file, stage, adding } = clip;
  if (stage.kind !== 'choosing') return;
  const { facts, choice } = stage;
  const { frames } = choice;
  const show = (done: number) => clips.stage(id, { kind: 'taking', facts, choice, done });
  show(0);
  const own = clips.begin(id);
  const pictures = await tasks.run(
    { kind: 'clip', jobId: document.getState().jobId },
    async (ended) => {
      const signal = AbortSignal.any([own, ended]);
      try {
        const report = (share: number) => {
          if (!signal.aborted) show(Math.round(share * frames.length));
        };
        const outcome = await takeFromClip({ file, name: file.name, frames }, { signal, report });
        if (outcome.done) return outcome.value;
        clips.stage(id, { kind: 'choosing', facts, choice });
        studio.announce('Stopped: nothing was taken from the clip.');
      } catch (error) {
        clips.stage(id, { kind: 'failed', message: messageOf(error), again: { facts, choice } });
      }
      return undefined;
    },
  );
  if (pictures === undefined) return;
  clips.drop(id);
  const gathered = asArrivals(clip, frames, facts.timesS.length, pictures);
  await receive(studio, async () => gathered, { adding });
};
