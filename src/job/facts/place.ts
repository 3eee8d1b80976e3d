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

export const middleOf = ({ widthPx, heightPx }: Frame): Point => ({
  x: widthPx / 2,
  y: heightPx / 2,
});

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

export const printMiddle = ({ print }: Job): Point => ({
  x: print.widthMm / 2,
  y: print.heightMm / 2,
});

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

export type Side = 'left' | 'top' | 'right' | 'bottom';

/** From the print's sides, clockwise from the left one: how far inside them a point of the print lies, mm. */
const depths = ({ print }: Job): Readonly<Record<Side, (point: Point) => number>> => ({
  left: ({ x }) => x,
  top: ({ y }) => y,
  right: ({ x }) => print.widthMm - x,
  bottom: ({ y }) => print.heightMm - y,
});

const sidesAround = ['left', 'top', 'right', 'bottom'] as const;

/** The ends of what of a line from one point to another lies on the print; none where nothing does. */
const onThePrint = (job: Job, from: Point, to: Point): Point[] => {
  let [enters, leaves] = [0, 1];
  for (const depth of Object.values(depths(job))) {
    const [start, end] = [depth(from), depth(to)];
    if (start < 0 && end < 0) return [];
    if (start < 0) enters = Math.max(enters, start / (start - end));
    if (end < 0) leaves = Math.min(leaves, start / (start - end));
  }
  if (enters > leaves) return [];
  return [enters, leaves].map((share) => ({
    x: from.x + share * (to.x - from.x),
    y: from.y + share * (to.y - from.y),
  }));
};

/**
 * How wide paper stays bare at each side of the print, mm: how far in the picture's edge that looks to that side comes,
 * at most. Of a print without any picture, its size.
 */
export const bareMm = (job: Job, frame: Frame): Readonly<Record<Side, number>> => {
  const { widthMm, heightMm } = job.print;
  const lies = onPrint(job, frame);
  const [least, wide, high] = [-NEARLY_PX, frame.widthPx + NEARLY_PX, frame.heightPx + NEARLY_PX];
  const corners = [
    { x: least, y: high },
    { x: least, y: least },
    { x: wide, y: least },
    { x: wide, y: high },
  ].map((corner) => moved(lies, corner));
  const bare = { left: 0, top: 0, right: 0, bottom: 0 };
  // A picture that was turned by a quarter looks to the top with what was its left edge.
  const quarters = (Math.round(turnOf(lies) / (Math.PI / 2)) + 4) % 4;
  const edges = corners.map((from, at) => onThePrint(job, from, corners[(at + 1) % 4] as Point));
  edges.forEach((part, at) => {
    const side = sidesAround[(at + quarters) % 4] as Side;
    bare[side] = Math.max(0, ...part.map(depths(job)[side]));
  });
  const isSeen = edges.some((part) => part.length > 0);
  if (isSeen || holds(frame, moved(inverse(lies), printMiddle(job)))) return bare;
  return { left: widthMm, right: widthMm, top: heightMm, bottom: heightMm };
};

const holds = (frame: Frame, point: Point): boolean =>
  insides(frame).every((inside) => inside(point) >= 0);

/** Pixels of the frame, counted across the ribs, that lie on the print; of one placed by itself, as if it filled it. */
export const pixelsAcross = (job: Job, frame: Frame): number => {
  const area = areaOf(job, frame);
  const upright = job.ribs === 'upright';
  if (area.toFrame === undefined)
    return upright ? Math.min(area.width, frame.widthPx) : Math.min(area.height, frame.heightPx);
  return (upright ? area.width : area.height) * zoomOf(area.toFrame);
};
