import { setRig } from '../facts/rig.ts';
import type { JobEdit } from './edit.ts';

export const changeRig = (label: string, change: Parameters<typeof setRig>[1]): JobEdit => [
  label,
  (job) => setRig(job, change),
  `rig.${label}`,
];
