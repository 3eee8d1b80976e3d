/** Ways to lay a picture: in the middle of the print, or on another one. */
import type { Similarity } from '../../core/numeric/similarity.ts';
import { after, inverse, moved, turnOf } from '../../core/numeric/similarity.ts';
import type { PictureArea } from '../../core/weave/picture-area.ts';
import type { Frame, Job } from '../schema/job.ts';
import type { Place } from '../schema/place.ts';
import { middleOf, onPrint, placeFrom, printMiddle } from './place.ts';
import { areaOf, sequenceOf } from './sheet.ts';

export const unplaced: Place = { zoom: 1, right: 0, down: 0, turnDeg: 0 };

/** How far the middle of the picture lies from where “Picture shape” would lay it, mm. */
export const shiftMm = (job: Job, frame: Frame): { rightMm: number; downMm: number } => {
  const { right, down } = frame.place ?? unplaced;
  const mmPerPx = job.print.widthMm / areaOf(job, frame).width;
  return { rightMm: right * frame.widthPx * mmPerPx, downMm: down * frame.widthPx * mmPerPx };
};

/** The place that fills (or shows whole) the picture in the middle of the print, with its turn. */
export const middlePlace = (job: Job, frame: Frame, how: 'fill' | 'fit'): Place | undefined => {
  const { widthMm, heightMm } = job.print;
  const turned = turnOf(onPrint(job, frame));
  const [cos, sin] = [Math.abs(Math.cos(turned)), Math.abs(Math.sin(turned))];
  const { widthPx, heightPx } = frame;
  // Either rectangle, seen along the other's sides, is as wide and as high as its corners reach.
  const mmPerPx =
    how === 'fill'
      ? Math.max(
          (widthMm * cos + heightMm * sin) / widthPx,
          (widthMm * sin + heightMm * cos) / heightPx,
        )
      : Math.min(
          widthMm / (widthPx * cos + heightPx * sin),
          heightMm / (widthPx * sin + heightPx * cos),
        );
  const [a, b] = [mmPerPx * Math.cos(turned), mmPerPx * Math.sin(turned)];
  const [toMiddle, middle] = [printMiddle(job), moved({ a, b, x0: 0, y0: 0 }, middleOf(frame))];
  return placeFrom(job, frame, { a, b, x0: toMiddle.x - middle.x, y0: toMiddle.y - middle.y });
};

/** The place that lays one picture on another as it lies. @param between from pixels of the frame to pixels of the other */
export const placeOnOther = (
  job: Job,
  frame: Frame,
  other: Frame,
  between: Similarity,
): Place | undefined => placeFrom(job, frame, after(onPrint(job, other), between));

/** As they lie on the print: from pixels of one picture to pixels of the other. */
export const betweenAsLaid = (job: Job, frame: Frame, other: Frame): Similarity =>
  after(inverse(onPrint(job, other)), onPrint(job, frame));

/** What of a placed frame is measured: the first frame's own rectangle, as both lie. Undefined for one that is not placed. */
export const measuredArea = (job: Job, frame: Frame): PictureArea | undefined => {
  const [first] = sequenceOf(job);
  if (frame.place === undefined || first === undefined) return undefined;
  const [area, reference] = [areaOf(job, frame), areaOf(job, first)];
  const perPx = area.width / reference.width;
  return {
    ...area,
    left: area.left - reference.left * perPx,
    top: area.top - reference.top * perPx,
    width: first.widthPx * perPx,
    height: first.heightPx * perPx,
  };
};
