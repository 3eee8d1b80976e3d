/** The slots in the weave's terms: their frames, the mixes of those, and which slot shows which. */
import type { Plain } from '../../core/frames/recipes.ts';
import type { PictureMix } from '../../core/weave/mix-slices.ts';
import type { Frame, Job } from '../schema/job.ts';
import type { PictureArea } from '../../core/weave/picture-area.ts';
import { printedAreaOf, slotsOf, titleFrameOf, withBleed } from './sheet.ts';
import { titleAreaOf, titleShift } from './title.ts';

/** A picture to prepare: a frame, or the title on a white or a black ground. */
export interface SlotPicture {
  /** The frame's id, or for a title the frame's id and its ground. */
  readonly id: string;
  readonly frame: Frame;
  /** The part of the frame that is printed. */
  readonly area: PictureArea;
  /** Only for a title. */
  readonly ground?: 'white' | 'black';
}

export interface SlotPictures {
  /** Each once, in the order of the slots; the title last. */
  readonly pictures: readonly SlotPicture[];
  readonly mixes: readonly PictureMix[];
  /** Length `viewSlots`; indices into `pictures` followed by `mixes`. */
  readonly slots: readonly number[];
}

/** Linear light, 0 … 65535. Grey is half way in lightness: L* 50, Y = (66 / 116)³ (CIE 1976). */
export const plainLight: Readonly<Record<Plain, number>> = {
  grey: Math.round(65535 * (66 / 116) ** 3),
  white: 65535,
  black: 0,
};

const titlePictures = (job: Job): SlotPicture[] => {
  const frame = titleFrameOf(job);
  if (frame === undefined) return [];
  const area = withBleed(job, titleAreaOf(job, frame));
  return (['white', 'black'] as const).map((ground) => ({
    id: `${frame.id} over ${ground}`,
    frame,
    area,
    ground,
  }));
};

/** All three are empty without frames. */
export const slotPicturesOf = (job: Job): SlotPictures => {
  const contents = slotsOf(job);
  if (contents.length === 0) return { pictures: [], mixes: [], slots: [] };
  const ids = [...new Set(contents.flatMap(({ parts }) => parts.map(({ frame }) => frame)))];
  const byId = new Map(job.frames.map((frame) => [frame.id, frame]));
  const frames = ids.map((id): SlotPicture => {
    const frame = byId.get(id) as Frame;
    return { id, frame, area: withBleed(job, printedAreaOf(job, frame), frame) };
  });
  const title = titlePictures(job);
  const count = frames.length + title.length;
  const mixes = new Map<string, PictureMix>();
  const slots = contents.map(({ parts, plain }, slot) => {
    const [first] = parts;
    if (title.length === 0 && parts.length === 1 && first !== undefined)
      return ids.indexOf(first.frame);
    const mix: PictureMix = {
      parts: parts.map(({ frame, weight }) => ({ frame: ids.indexOf(frame), share: weight })),
      light: plain === undefined ? 0 : plainLight[plain],
      ...(title.length === 0
        ? {}
        : { over: { onWhite: count - 2, onBlack: count - 1, shift: titleShift(job, slot) } }),
    };
    const key = JSON.stringify(mix);
    if (!mixes.has(key)) mixes.set(key, mix);
    return count + [...mixes.keys()].indexOf(key);
  });
  return { pictures: [...frames, ...title], mixes: [...mixes.values()], slots };
};
