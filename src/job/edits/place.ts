/** Edits of where single pictures lie, and of their brightness and white. */
import { nameInText } from '../../core/names/shown.ts';
import type { PictureLight } from '../../core/colour/picture-light.ts';
import { sequenceOf } from '../facts/sheet.ts';
import type { Frame, Job } from '../schema/job.ts';
import type { Place } from '../schema/place.ts';
import type { JobEdit } from './edit.ts';
import { placed, same, setPlace, withFrames } from './set-place.ts';

const lit = (frame: Frame, light: PictureLight | undefined): Frame => {
  const neutral =
    light === undefined || (light.stops === 0 && light.warmth === 0 && light.tint === 0);
  if (same(frame.light, neutral ? undefined : light)) return frame;
  const { light: _before, ...rest } = frame;
  return neutral ? rest : { ...rest, light };
};

export const setLight = (job: Job, id: string, light: PictureLight | undefined): Job =>
  withFrames(job, (frame) => (frame.id === id ? lit(frame, light) : frame));

/** @param how what of it was changed, in small steps: those of one kind in a row become one; left out: a step by itself */
export const placePicture = (frame: Frame, place: Place | undefined, how?: string): JobEdit => {
  const label = `placing ${nameInText(frame.name)}`;
  const edit = (job: Job) => setPlace(job, frame.id, place);
  return how === undefined ? [label, edit] : [label, edit, `place.${frame.id}.${how}`];
};

export const lightPicture = (frame: Frame, light: PictureLight | undefined): JobEdit => [
  `brightness and white of ${nameInText(frame.name)}`,
  (job) => setLight(job, frame.id, light),
  `light.${frame.id}`,
];

/** The other pictures of this one's size. */
export const othersLike = (job: Job, { id, widthPx, heightPx }: Frame): readonly Frame[] =>
  sequenceOf(job).filter(
    (frame) => frame.id !== id && frame.widthPx === widthPx && frame.heightPx === heightPx,
  );

/** Lays all other pictures of this one's size as it lies, as bright and as white. */
export const placeOthersLike = (frame: Frame): JobEdit => [
  'placing all others alike',
  (job) => {
    const others = new Set(othersLike(job, frame));
    return withFrames(job, (one) =>
      others.has(one) ? lit(placed(one, frame.place), frame.light) : one,
    );
  },
];
