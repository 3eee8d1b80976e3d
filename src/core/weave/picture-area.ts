/** How a frame lies on the print: the rectangle of the frame, in its own pixels, that the print shows. */

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
}

export type Sides = Readonly<Record<'left' | 'top' | 'right' | 'bottom', boolean>>;

/** A frame may end this many pixels short and still count as filling an outline. */
const NEARLY_PX = 0.5;

/** The sides of an outline to which a frame of this size has picture. */
export const filledSides = (
  { left, top, width, height }: PictureArea,
  frame: { readonly widthPx: number; readonly heightPx: number },
): Sides => ({
  left: left > -NEARLY_PX,
  top: top > -NEARLY_PX,
  right: left + width < frame.widthPx + NEARLY_PX,
  bottom: top + height < frame.heightPx + NEARLY_PX,
});

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
