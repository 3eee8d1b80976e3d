/** Frames that were zoomed and shifted, but not turned. */
import { moved } from '../numeric/similarity.ts';
import type { PictureArea } from './picture-area.ts';

/** The outline on a frame that was not turned, as one that was not placed by itself. */
export const levelArea = (area: PictureArea): PictureArea => {
  const { toFrame, ...rest } = area;
  if (toFrame === undefined) return area;
  const { x, y } = moved(toFrame, { x: area.left, y: area.top });
  return {
    ...rest,
    left: x,
    top: y,
    width: area.width * toFrame.a,
    height: area.height * toFrame.a,
  };
};
