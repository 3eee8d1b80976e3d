/**
 * The distortion from turning the camera, or the thing in front of it, against cameras that look straight ahead
 * (optics relation 5). Pinhole projection; lengths in any one unit.
 */
import type { Rig } from './rig.ts';

export type Way = 'rendered' | 'rail' | 'turned-in' | 'turntable';

export interface Distortion {
  /** Taller edge of the key-plane rectangle / shorter edge − 1, in the outermost view. */
  readonly keystone: number;
  /** Difference in height of a corner between the outermost views, print mm. */
  readonly cornerMm: number;
  /** The same between neighbours in the middle of the row, as two eyes close together see it. */
  readonly neighbourMm: number;
  /** How far a side of the key plane, which should not move, moves in total, print mm. */
  readonly sideMm: number;
}

/** A point (X, Y) of the key plane as a turned camera sees it, scaled so that the middle is right. */
const seen = (rig: Rig, way: 'turned-in' | 'turntable', x: number, keyX: number, keyY: number) => {
  const angle = Math.atan2(x, rig.keyDistance);
  // On a camera slide the outer cameras are further from the middle; around a turntable all are equally far.
  const away = way === 'turntable' ? rig.keyDistance : rig.keyDistance / Math.cos(angle);
  const scale = rig.keyDistance / (away - keyX * Math.sin(angle));
  return { x: keyX * Math.cos(angle) * scale, y: keyY * scale };
};

const straight: Distortion = { keystone: 0, cornerMm: 0, neighbourMm: 0, sideMm: 0 };

export const distortionOf = (rig: Rig, way: Way): Distortion => {
  const last = rig.cameras.at(-1);
  if (way === 'rendered' || way === 'rail' || last === undefined) return straight;
  const [keyX, keyY] = [rig.keyWidth / 2, rig.keyHeight / 2];
  const at = (x: number, side = keyX) => seen(rig, way, x, side, keyY);
  return {
    keystone: at(last.x).y / at(last.x, -keyX).y - 1,
    cornerMm: Math.abs(at(last.x).y - at(-last.x).y) / rig.scale,
    neighbourMm: Math.abs(at(rig.step / 2).y - at(-rig.step / 2).y) / rig.scale,
    sideMm: Math.abs(at(last.x).x - at(-last.x).x) / rig.scale,
  };
};

/** Turn of the table or the camera for a view, radians; positive for cameras on the right. */
export const turnOf = (rig: Rig, x: number): number => Math.atan2(x, rig.keyDistance);

/**
 * How much wider than the frame a straight-ahead photograph must be so that every window can be cut from it: 1 + 2
 * |x| / width for the outermost camera.
 */
export const railWidth = (rig: Rig): number =>
  1 + (2 * Math.abs(rig.cameras.at(-1)?.x ?? 0)) / rig.keyWidth;
