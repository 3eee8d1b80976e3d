/** The frames that one frame of a sequence is compared with. */
import type { Plane } from './plane.ts';
import type { Track } from './track.ts';
import { clamp } from './window.ts';

/** Distances, in frames, of the frames compared on each side; the farthest tell soonest what does not fit. */
const AWAY = [7, 5, 3, 1] as const;

export interface Other {
  readonly plane: Plane;
  /** Steps from the frame measured; below 0 to its left. */
  readonly along: number;
  readonly slip: number;
}

const liftedData = ({ width, height }: Plane, data: Float32Array, rise: number): Float32Array => {
  const out = new Float32Array(data.length);
  for (let y = 0; y < height; y += 1) {
    const from = clamp(y + rise, height - 1);
    const top = Math.min(height - 2, Math.floor(from));
    const part = from - top;
    for (let x = 0; x < width; x += 1)
      out[y * width + x] =
        (1 - part) * data[top * width + x]! + part * data[(top + 1) * width + x]!;
  }
  return out;
};

/**
 * Another frame, moved up by its rise. Brightness stays as it is: drifting fog would mislead any global correction.
 */
const lifted = (plane: Plane, rise: number): Plane => {
  if (Math.abs(rise) < 0.02) return plane;
  const { width, height, data, sharp } = plane;
  return {
    width,
    height,
    data: liftedData(plane, data, rise),
    ...(sharp === undefined ? {} : { sharp: liftedData(plane, sharp, rise) }),
  };
};

/** The frames that are compared with frame k out of `count`. */
export const framesAsked = (k: number, count: number): number[] =>
  AWAY.flatMap((away) => [k - away, k + away]).filter((j) => j >= 0 && j < count);

export const othersOf = (
  planes: ReadonlyMap<number, Plane>,
  k: number,
  { along, slip, rise }: Track,
): Other[] => {
  const at = (list: readonly number[], j: number) => list[j]! - list[k]!;
  return framesAsked(k, along.length).map((j) => ({
    plane: lifted(planes.get(j)!, at(rise, j)),
    along: at(along, j),
    slip: at(slip, j),
  }));
};
