/** How a frame is laid on the print: which rectangle of the frame, in its own pixels, the print shows. */

/**
 * The print's outline drawn on the frame, in pixels of the frame from its top left corner. It may
 * reach outside the frame; what lies there prints as bare paper.
 */
export interface PictureArea {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** `fill` cuts the frame to the print's shape; `fit` shows all of it with paper beside it. */
export type Placement = 'fill' | 'fit';

/**
 * The print's outline on a frame of the given size. `shiftX` and `shiftY`, −1 … 1, slide it from the
 * middle towards the end of whatever room there is: −1 left or top, 1 right or bottom.
 * @param printShape width over height of the print, above 0.
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
