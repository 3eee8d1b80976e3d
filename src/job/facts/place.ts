/** Where each picture lies on the print, in the print's millimetres, before the key plane slides it. */
import type { Point, Similarity } from '../../core/numeric/similarity.ts';
import {
  about,
  after,
  inverse,
  moved,
  shiftBy,
  turnOf,
  zoomOf,
} from '../../core/numeric/similarity.ts';
import { cornersOnFrame } from '../../core/weave/picture-area.ts';
import type { Frame, Job } from '../schema/job.ts';
import type { Place } from '../schema/place.ts';
import { areaOf, framePlace } from './sheet.ts';

const middleOf = ({ widthPx, heightPx }: Frame): Point => ({ x: widthPx / 2, y: heightPx / 2 });

/** From pixels of the picture as “Picture shape” lays it to millimetres from the print's top left corner. */
const planeOnPrint = (job: Job, frame: Frame): Similarity => {
  const { left, top, width } = areaOf(job, frame);
  const mmPerPx = job.print.widthMm / width;
  return { a: mmPerPx, b: 0, x0: -left * mmPerPx, y0: -top * mmPerPx };
};

/** From a pixel of the picture to millimetres from the print's top left corner. */
export const onPrint = (job: Job, frame: Frame): Similarity => {
  const plane = planeOnPrint(job, frame);
  const placed = framePlace(frame);
  return placed === undefined ? plane : after(plane, placed);
};

const rounded = (value: number, digits: number): number => Number(value.toFixed(digits)) + 0;

/** Finer than a hundredth of a pixel of any picture. */
const DIGITS = { zoom: 7, shift: 7, turn: 6 };

/** The place of a picture that is to lie so on the print; undefined where that is where it lies by itself. */
export const placeFrom = (job: Job, frame: Frame, wanted: Similarity): Place | undefined => {
  const plane = after(inverse(planeOnPrint(job, frame)), wanted);
  const middle = middleOf(frame);
  const now = moved(plane, middle);
  const place = {
    zoom: rounded(zoomOf(plane), DIGITS.zoom),
    right: rounded((now.x - middle.x) / frame.widthPx, DIGITS.shift),
    down: rounded((now.y - middle.y) / frame.widthPx, DIGITS.shift),
    turnDeg: rounded((turnOf(plane) * 180) / Math.PI, DIGITS.turn),
  };
  const { zoom, right, down, turnDeg } = place;
  return zoom === 1 && right === 0 && down === 0 && turnDeg === 0 ? undefined : place;
};

export const unplaced: Place = { zoom: 1, right: 0, down: 0, turnDeg: 0 };

const printMiddle = ({ print }: Job): Point => ({ x: print.widthMm / 2, y: print.heightMm / 2 });

export type PlaceChange =
  | { readonly rightMm: number; readonly downMm: number }
  /** About this point of the print, mm; left out: its middle. */
  | { readonly zoomBy: number; readonly still?: Point }
  | { readonly turnByDeg: number };

/** The picture moved from where it lies on the print. */
export const changedPlace = (job: Job, frame: Frame, change: PlaceChange): Place | undefined => {
  const middle = printMiddle(job);
  const by =
    'rightMm' in change
      ? shiftBy(change.rightMm, change.downMm)
      : 'zoomBy' in change
        ? about(change.still ?? middle, change.zoomBy, 0)
        : about(middle, 1, (change.turnByDeg * Math.PI) / 180);
  return placeFrom(job, frame, after(by, onPrint(job, frame)));
};

/** The frame's four edges, as how far inside them a pixel of it lies. */
const insides = ({ widthPx, heightPx }: Frame): readonly ((point: Point) => number)[] => [
  ({ x }) => x,
  ({ y }) => y,
  ({ x }) => widthPx - x,
  ({ y }) => heightPx - y,
];

const printCorners = (job: Job, frame: Frame): Point[] => cornersOnFrame(areaOf(job, frame));

/** A picture that ends this little inside the print still fills it. */
const NEARLY_PX = 0.5;

/**
 * The factor by which the picture must be zoomed about the print's middle to fill the print: 1 where it does, undefined
 * where no zoom does, as the picture does not reach the middle.
 */
export const zoomToFill = (job: Job, frame: Frame): number | undefined => {
  const corners = printCorners(job, frame);
  const middle = moved(inverse(onPrint(job, frame)), printMiddle(job));
  let most = 1;
  for (const inside of insides(frame)) {
    const room = inside(middle);
    const least = Math.min(...corners.map(inside));
    if (least >= -NEARLY_PX) continue;
    if (room <= 0) return undefined;
    most = Math.max(most, (room - least) / room);
  }
  return most;
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

export type Side = 'left' | 'top' | 'right' | 'bottom';

/** How far in from each side of the print there is no picture along the whole side, mm. */
export const bareMm = (job: Job, frame: Frame): Readonly<Record<Side, number>> => {
  const { widthMm, heightMm } = job.print;
  const toFrame = inverse(onPrint(job, frame));
  const edges = insides(frame);
  /** Where on the way from one point of the print to another the picture begins, mm; its length where it never does. */
  const beginsAfter = (from: Point, to: Point): number => {
    const [start, end] = [moved(toFrame, from), moved(toFrame, to)];
    const length = Math.hypot(to.x - from.x, to.y - from.y);
    let [enters, leaves] = [0, 1];
    for (const inside of edges) {
      const [one, other] = [inside(start) + NEARLY_PX, inside(end) + NEARLY_PX];
      if (one < 0 && other < 0) return length;
      if (one < 0) enters = Math.max(enters, one / (one - other));
      if (other < 0) leaves = Math.min(leaves, one / (one - other));
    }
    return enters > leaves ? length : enters * length;
  };
  const topLeft = { x: 0, y: 0 };
  const topRight = { x: widthMm, y: 0 };
  const bottomRight = { x: widthMm, y: heightMm };
  const bottomLeft = { x: 0, y: heightMm };
  const both = (a: Point, toA: Point, b: Point, toB: Point) =>
    Math.max(beginsAfter(a, toA), beginsAfter(b, toB));
  return {
    left: both(topLeft, topRight, bottomLeft, bottomRight),
    top: both(topLeft, bottomLeft, topRight, bottomRight),
    right: both(topRight, topLeft, bottomRight, bottomLeft),
    bottom: both(bottomLeft, topLeft, bottomRight, topRight),
  };
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

/** Pixels of the frame, counted across the ribs, that lie on the print. */
export const pixelsAcross = (job: Job, frame: Frame): number => {
  const area = areaOf(job, frame);
  const upright = job.ribs === 'upright';
  if (area.toFrame === undefined)
    return upright ? Math.min(area.width, frame.widthPx) : Math.min(area.height, frame.heightPx);
  const all = (upright ? area.width : area.height) * zoomOf(area.toFrame);
  const bare = bareMm(job, frame);
  const across = upright ? job.print.widthMm : job.print.heightMm;
  const lost = upright ? bare.left + bare.right : bare.top + bare.bottom;
  return all * Math.max(0, 1 - lost / across);
};
