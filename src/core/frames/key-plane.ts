/**
 * Moving the key plane after the fact: every frame is slid across the ribs in proportion to its place
 * in the sequence, so that another depth stands still. Exact for cameras on a straight line with a
 * common key plane (optics relations 5 and 6): a slide of the window is all that differs between them.
 */
import type { PictureArea, Placement } from '../weave/picture-area.ts';
import { pictureArea } from '../weave/picture-area.ts';

export interface KeyPlane {
  /** Lenticules from one frame to the next that what is to stand still moves by now. */
  readonly keyShift: number;
  readonly frameCount: number;
  /** Lenticules over the print's size across the ribs. */
  readonly ribsAcross: number;
  readonly ribs: 'upright' | 'lying';
}

/** How far frame `index` is slid, in lenticules, counted from the middle of the sequence. */
export const slideOf = ({ keyShift, frameCount }: KeyPlane, index: number): number =>
  keyShift * (index - (frameCount - 1) / 2);

interface Placed {
  readonly shape: number;
  readonly mode: Placement;
  readonly shiftX: number;
  readonly shiftY: number;
}

/**
 * The print's outline on a frame that is not slid, as `pictureArea` gives it; but a frame that fills
 * the print keeps room on both sides for the outermost frames' slides, so that none of them shows
 * bare paper. The picture grows for that by the share that the slides take.
 */
export const areaWithRoom = (
  frameWidth: number,
  frameHeight: number,
  { shape, mode, shiftX, shiftY }: Placed,
  key: KeyPlane,
): PictureArea => {
  const most = Math.abs(slideOf(key, 0)) / key.ribsAcross;
  if (mode === 'fit' || most === 0)
    return pictureArea(frameWidth, frameHeight, shape, mode, shiftX, shiftY);
  const upright = key.ribs === 'upright';
  const [across, along] = upright ? [frameWidth, frameHeight] : [frameHeight, frameWidth];
  const wanted = along * (upright ? shape : 1 / shape);
  const room = most * Math.min(wanted, across / (1 + 2 * most));
  const inner = across - 2 * room;
  const area = upright
    ? pictureArea(inner, along, shape, mode, shiftX, shiftY)
    : pictureArea(along, inner, shape, mode, shiftX, shiftY);
  return upright ? { ...area, left: area.left + room } : { ...area, top: area.top + room };
};

/** The outline slid for one frame: along with what is to stand still. */
export const slidArea = (area: PictureArea, key: KeyPlane, index: number): PictureArea => {
  const share = slideOf(key, index) / key.ribsAcross;
  return key.ribs === 'upright'
    ? { ...area, left: area.left + share * area.width }
    : { ...area, top: area.top + share * area.height };
};
