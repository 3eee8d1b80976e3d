/** A photograph as a frame of a job: what matters is its size, and how it is placed. */
import type { Frame } from '../../src/job/schema/job.ts';

export const photograph = (
  id: string,
  widthPx: number,
  heightPx: number,
  place?: Frame['place'],
): Frame => ({
  id,
  name: `${id}.jpg`,
  byteLength: 1,
  widthPx,
  heightPx,
  kind: 'JPEG',
  sceneLinear: false,
  meanLight: 0.5,
  ...(place === undefined ? {} : { place }),
});
