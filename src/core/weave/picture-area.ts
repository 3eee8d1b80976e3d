/** How a frame lies on the print: the rectangle of the frame, in its own pixels, that the print shows. */
import type { Point, Similarity } from '../numeric/similarity.ts';
import { moved } from '../numeric/similarity.ts';

/**
 * The outline of the print on the frame, in frame pixels from its top left corner. It may reach outside the frame;
 * that part prints as bare paper, or mirrored.
 */
export interface PictureArea {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
  /** Sides past which the frame's edge is mirrored, for a bleed that the frame does not reach. */
  readonly mirror?: Sides;
  /**
   * Left out: the frame lies as it came. Else from the place of a point in this outline to the pixel of the frame that
   * lies there: the frame was zoomed, shifted or turned by itself.
   */
  readonly toFrame?: Similarity;
}

export type Sides = Readonly<Record<'left' | 'top' | 'right' | 'bottom', boolean>>;

/** A frame may end this many pixels short and still count as filling an outline. */
const NEARLY_PX = 0.5;

interface FrameSize {
  readonly widthPx: number;
  readonly heightPx: number;
}

/** Whether the frame’s rows lie along the outline’s, the same way round. */
export const isLevel = ({ toFrame }: PictureArea): boolean =>
  toFrame === undefined || (toFrame.b === 0 && toFrame.a > 0);

/** The corners of the outline on the frame, in its pixels: clockwise from the outline’s top left. */
export const cornersOnFrame = ({ left, top, width, height, toFrame }: PictureArea): Point[] =>
  [
    { x: left, y: top },
    { x: left + width, y: top },
    { x: left + width, y: top + height },
    { x: left, y: top + height },
  ].map((corner) => (toFrame === undefined ? corner : moved(toFrame, corner)));

/** The sides of an outline to which a frame of this size has picture; of a turned one, along the whole side. */
export const filledSides = (area: PictureArea, { widthPx, heightPx }: FrameSize): Sides => {
  const on = cornersOnFrame(area).map(({ x, y }) => ({
    left: x > -NEARLY_PX,
    top: y > -NEARLY_PX,
    right: x < widthPx + NEARLY_PX,
    bottom: y < heightPx + NEARLY_PX,
  }));
  const level = isLevel(area);
  const side = (name: keyof Sides, one: number, other: number): boolean =>
    level
      ? on[one]![name]
      : Object.values({ ...on[one] }).every(Boolean) &&
        Object.values({ ...on[other] }).every(Boolean);
  return {
    left: side('left', 0, 3),
    top: side('top', 0, 1),
    right: side('right', 2, 1),
    bottom: side('bottom', 2, 3),
  };
};

/** `fill` cuts the frame to the print’s shape; `fit` shows all of it with paper beside it. */
export type Placement = 'fill' | 'fit';

/**
 * The outline of the print on a frame of this size.
 * @param printShape width / height of the print, above 0.
 * @param shiftX, shiftY −1 … 1: slide from the middle through the available room, −1 left or top, 1 right or
 *   bottom.
 */
export const pictureArea = (
  frameWidth: number,
  frameHeight: number,
  printShape: number,
  placement: Placement,
  shiftX = 0,
  shiftY = 0,
): PictureArea => {
  const widthFirst = (placement === 'fill') === frameWidth / frameHeight <= printShape;
  const width = widthFirst ? frameWidth : frameHeight * printShape;
  const height = widthFirst ? frameWidth / printShape : frameHeight;
  return {
    left: ((frameWidth - width) / 2) * (1 + shiftX),
    top: ((frameHeight - height) / 2) * (1 + shiftY),
    width,
    height,
  };
};
