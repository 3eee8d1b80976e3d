/**
 * The row of cameras (optics relation 5) in scene units.
 *
 * Axes as in docs/optics.md: x to the right, z away from the cameras, key plane at z = 0. All cameras look straight
 * ahead along z; each sees the same rectangle of the key plane through a sheared (off-axis) window. View 0 is the
 * leftmost.
 */
import type { LensSheet } from '../lens/lens.ts';
import { zoneWidth } from '../lens/traced.ts';
import type { Mm } from '../units/units.ts';
import { mm } from '../units/units.ts';
import type { DepthSetting } from './depth.ts';
import { depthOfPart, rangeWithin } from './depth.ts';

export interface RigSetting {
  readonly lens: LensSheet;
  readonly viewSlots: number;
  /** γ, above 0. */
  readonly gain: number;
  readonly printWidthMm: Mm;
  readonly printHeightMm: Mm;
  /** Width of the frame at the key plane, scene units. */
  readonly keyWidth: number;
  /** From the row of cameras to the key plane, scene units. */
  readonly keyDistance: number;
}

export interface RigCamera {
  /** From 0, the leftmost. */
  readonly view: number;
  /** Scene units from the middle of the row. */
  readonly x: number;
  /** Shift of the window as a share of the frame’s width: −x_i / width at the key plane. */
  readonly windowShift: number;
}

export interface Rig {
  readonly keyWidth: number;
  readonly keyHeight: number;
  readonly keyDistance: number;
  /** Scene units per millimetre of the print. */
  readonly scale: number;
  /** Δ, scene units. */
  readonly step: number;
  readonly cameras: readonly RigCamera[];
}

/** D of the cameras: their distance from the key plane with the scene at the size of the print. */
export const standMm = ({ keyWidth, keyDistance, printWidthMm }: RigSetting): Mm =>
  mm((keyDistance * printWidthMm) / keyWidth);

/** The depth budget for these cameras: relations 5 and 6 with their distance for D. */
export const rigDepth = (setting: RigSetting): DepthSetting => ({
  lens: setting.lens,
  viewSlots: setting.viewSlots,
  distanceMm: standMm(setting),
  gain: setting.gain,
});

/** Cameras at x_i = (i − (N − 1)/2) Δ with Δ = γ D p / (N g'), scaled to the scene (relation 5). */
export const rigOf = (setting: RigSetting): Rig => {
  const { lens, viewSlots, gain, keyWidth, keyDistance } = setting;
  const scale = keyWidth / setting.printWidthMm;
  const step = (scale * gain * zoneWidth(lens, standMm(setting))) / viewSlots;
  return {
    keyWidth,
    keyHeight: setting.printHeightMm * scale,
    keyDistance,
    scale,
    step,
    cameras: Array.from({ length: viewSlots }, (_, view) => {
      const x = (view - (viewSlots - 1) / 2) * step;
      // Without the "+ 0" the middle camera of an odd row would have a minus zero.
      return { view, x, windowShift: -x / keyWidth + 0 };
    }),
  };
};

/** Edges of a camera’s window on the plane `near` in front of it, from the camera’s axis; y up. */
export interface Frustum {
  readonly left: number;
  readonly right: number;
  readonly bottom: number;
  readonly top: number;
}

export const frustumAt = (rig: Rig, { x }: RigCamera, near: number): Frustum => {
  const share = near / rig.keyDistance;
  return {
    left: (-rig.keyWidth / 2 - x) * share,
    right: (rig.keyWidth / 2 - x) * share,
    bottom: (-rig.keyHeight / 2) * share,
    top: (rig.keyHeight / 2) * share,
  };
};

/** Where |s| reaches so many ribs per view, scene units from the key plane (relation 6). */
export const rigRange = (
  setting: RigSetting,
  lenticules: number,
): { readonly front: number; readonly behind: number } => {
  const scale = setting.keyWidth / setting.printWidthMm;
  const { frontMm, behindMm } = rangeWithin(rigDepth(setting), lenticules);
  return { front: -frontMm * scale, behind: behindMm * scale };
};

/**
 * Where a thing `z` behind the key plane (scene units) appears in the print, mm: the z' with z' / (D + z') = γ (D_c /
 * D) z_c / (D_c + z_c), D_c the distance of the cameras and z_c the thing’s depth at print scale. Equal to
 * `perceivedDepth` for D_c = D.
 */
export const seenDepth = (setting: RigSetting, z: number, distanceMm: Mm): Mm => {
  const part = (setting.gain * (standMm(setting) / distanceMm) * z) / (setting.keyDistance + z);
  return depthOfPart(part, distanceMm);
};

/** Focal length that shows the width of the key plane on a sensor of this width: f = s · distance / width. */
export const focalFor = (sensorMm: number, keyWidth: number, keyDistance: number): number =>
  (sensorMm * keyDistance) / keyWidth;

/** Distance at which a camera with this focal length and sensor sees the width of the key plane. */
export const distanceFor = (focalMm: number, sensorMm: number, keyWidth: number): number =>
  (focalMm * keyWidth) / sensorMm;
