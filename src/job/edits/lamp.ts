/** Changes to the lamp, each a step to undo. */
import type { LampCurve } from '../../core/colour/lamp.ts';
import { LAMP_PATCHES, curveOfPatch } from '../../core/colour/lamp-target.ts';
import type { JobEdit } from './edit.ts';

export const DEFAULT_LAMP: LampCurve = { density: 1.6, warmth: 0 };

export const setLamp = (label: string, lamp: LampCurve | undefined): JobEdit => [
  label,
  ({ lamp: _, ...job }) => (lamp === undefined ? job : { ...job, lamp }),
];

/** A string says why there is no such patch. */
export const readLampPatch = (patch: number): JobEdit | string => {
  const curve = curveOfPatch(patch);
  return curve === undefined
    ? `Patches are numbered 1 to ${LAMP_PATCHES}, whole numbers.`
    : setLamp('lamp patch', curve);
};
