/** The slots in the weave's terms: the frames they need, the mixes made of them, and which goes where. */
import type { Plain, SlotContent } from '../core/frames/recipes.ts';
import type { PictureMix } from '../core/weave/mix-slices.ts';
import type { Frame, Job } from './job.ts';
import { slotsOf } from './selectors.ts';

export interface SlotPictures {
  /** Each once, in the order of the slots. */
  readonly frames: readonly Frame[];
  readonly mixes: readonly PictureMix[];
  /** Length `viewSlots`; indices into `frames`, and on from its end into `mixes`. */
  readonly slots: readonly number[];
}

/** Linear light, 0 … 65535. Grey is half way in lightness: L* 50, Y = (66 / 116)³ (CIE 1976). */
const plainLight: Readonly<Record<Plain, number>> = {
  grey: Math.round(65535 * (66 / 116) ** 3),
  white: 65535,
  black: 0,
};

const mixOf = ({ parts, plain }: SlotContent, indexOf: (id: string) => number): PictureMix => ({
  parts: parts.map(({ frame, weight }) => ({ frame: indexOf(frame), share: weight })),
  light: plain === undefined ? 0 : plainLight[plain],
});

/** No frames, no slots: all three are then empty. */
export const slotPicturesOf = (job: Job): SlotPictures => {
  const contents = slotsOf(job);
  const ids = [...new Set(contents.flatMap(({ parts }) => parts.map(({ frame }) => frame)))];
  const byId = new Map(job.frames.map((frame) => [frame.id, frame]));
  const mixes = new Map<string, PictureMix>();
  const keys = contents.map((content) => {
    const [first] = content.parts;
    if (content.parts.length === 1 && first !== undefined) return ids.indexOf(first.frame);
    const mix = mixOf(content, (id) => ids.indexOf(id));
    const key = JSON.stringify(mix);
    if (!mixes.has(key)) mixes.set(key, mix);
    return ids.length + [...mixes.keys()].indexOf(key);
  });
  return {
    frames: ids.map((id) => byId.get(id) as Frame),
    mixes: [...mixes.values()],
    slots: keys,
  };
};
