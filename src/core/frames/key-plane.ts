/**
 * Moves the key plane afterwards: slides every frame across the ribs in proportion to its place in the sequence, so
 * that another depth becomes the key plane. Exact for cameras on a straight line with a common key plane (optics
 * relations 5 and 6): another key plane differs only by a slide of the window.
 */
import type { PictureArea, Placement } from '../weave/picture-area.ts';
import { pictureArea } from '../weave/picture-area.ts';

export interface KeyPlane {
  /** How far the wanted key plane moves now, lenticules from one frame to the next. */
  readonly keyShift: number;
  readonly frameCount: number;
  /** Lenticules across the print. */
  readonly ribsAcross: number;
  readonly ribs: 'upright' | 'lying';
}

/** How far frame `index` slides, lenticules, counted from the middle of the sequence. */
export const slideOf = ({ keyShift, frameCount }: KeyPlane, index: number): number =>
  keyShift * (index - (frameCount - 1) / 2);

interface Placed {
  readonly shape: number;
  readonly mode: Placement;
  readonly shiftX: number;
  readonly shiftY: number;
}

/**
 * The print’s outline on a frame that does not slide, as `pictureArea` gives it. A frame that fills the print keeps
 * room on both sides for the slides of the outermost frames, so that none shows bare paper; the picture grows by the
 * share that the slides take.
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

/** The outline for one frame, slid so that the key plane stays in place. */
export const slidArea = (area: PictureArea, key: KeyPlane, index: number): PictureArea => {
  const share = slideOf(key, index) / key.ribsAcross;
  return key.ribs === 'upright'
    ? { ...area, left: area.left + share * area.width }
    : { ...area, top: area.top + share * area.height };
};
