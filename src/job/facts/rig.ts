/** The rig of a job: its choices with their defaults, and what follows from them. */
import type { DepthRange, DepthSetting } from '../../core/plan/depth.ts';
import { stepAt } from '../../core/plan/depth.ts';
import type { FrameNeeds, FrameSize } from '../../core/plan/render-plan.ts';
import { frameAt, smallestFrame } from '../../core/plan/render-plan.ts';
import type { RigSetting } from '../../core/plan/rig.ts';
import { distanceFor, focalFor, rigDepth } from '../../core/plan/rig.ts';
import type { UsdaChoices } from '../../core/plan/usda.ts';
import { mm } from '../../core/units/units.ts';
import { setDepthGain } from '../edits/consequences.ts';
import type { ChangeOf } from '../schema/changed.ts';
import { changed } from '../schema/changed.ts';
import type { Job } from '../schema/job.ts';
import { depthGainOf } from './plan.ts';
import type { RigChoices } from '../schema/rig.ts';
import { lensOf } from './sheet.ts';
import { gridOf } from './printer.ts';

const unitsMm = { mm: 1, cm: 10, m: 1000, in: 25.4, ft: 304.8 } as const;

export interface SceneUnit {
  readonly name: string;
  readonly mm: number;
}

export const sceneUnitOf = ({ rig }: Job): SceneUnit => {
  const unit = rig?.unit ?? 'mm';
  return unit === 'own'
    ? { name: 'units', mm: rig?.ownUnitMm ?? 1 }
    : { name: unit, mm: unitsMm[unit] };
};

/** A full-frame stills sensor: 36 mm wide (common practice, no source). */
export const sensorOf = ({ rig }: Job): number => rig?.sensorMm ?? 36;
const USUAL_FOCAL_MM = 50;

export const keyWidthOf = (job: Job): number =>
  job.rig?.keyWidth ?? job.print.widthMm / sceneUnitOf(job).mm;

/** The print's viewing distance, scaled to the scene. */
const viewerDistance = (job: Job): number =>
  (keyWidthOf(job) * job.print.viewingDistanceMm) / job.print.widthMm;

export const keyDistanceOf = (job: Job): number => {
  const stand = job.rig?.stand ?? 'viewer';
  if (stand === 'camera')
    return distanceFor(job.rig?.focalMm ?? USUAL_FOCAL_MM, sensorOf(job), keyWidthOf(job));
  return (stand === 'own' ? job.rig?.keyDistance : undefined) ?? viewerDistance(job);
};

export const focalOf = (job: Job): number =>
  job.rig?.stand === 'camera'
    ? (job.rig.focalMm ?? USUAL_FOCAL_MM)
    : focalFor(sensorOf(job), keyWidthOf(job), keyDistanceOf(job));

export const rigSettingOf = (job: Job): RigSetting => ({
  lens: lensOf(job),
  viewSlots: job.viewSlots,
  gain: depthGainOf(job),
  printWidthMm: mm(job.print.widthMm),
  printHeightMm: mm(job.print.heightMm),
  keyWidth: keyWidthOf(job),
  keyDistance: keyDistanceOf(job),
});

export const usdaChoicesOf = (job: Job): UsdaChoices => {
  const distance = keyDistanceOf(job);
  const unit = sceneUnitOf(job);
  const { near, far } = job.rig ?? {};
  return {
    title: job.name,
    unitName: unit.name,
    unitMm: unit.mm,
    sensorMm: sensorOf(job),
    ...(near === undefined || near >= distance ? {} : { nearest: distance - near }),
    ...(far === undefined ? {} : { farthest: distance + far }),
  };
};

/** Undefined takes a choice back to its default. */
export const setRig = (job: Job, change: ChangeOf<RigChoices>): Job => ({
  ...job,
  rig: changed(job.rig ?? {}, change),
});

const significant = (value: number): number => Number(value.toPrecision(9));

/**
 * Moves the key plane away from the cameras (below 0: nearer), in scene units. Cameras and things stay in
 * place and the camera keeps its angle, so the width at the key plane grows with its distance.
 */
export const moveKeyPlane = (job: Job, by: number): Job => {
  const distance = keyDistanceOf(job);
  const moved = distance + by;
  if (!(moved > 0)) return job;
  const { near, far, stand } = job.rig ?? {};
  return setRig(job, {
    keyWidth: significant((keyWidthOf(job) * moved) / distance),
    ...(stand === 'own' ? { keyDistance: significant(moved) } : {}),
    ...(near === undefined ? {} : { near: significant(Math.max(0, near + by)) }),
    ...(far === undefined ? {} : { far: significant(Math.max(0, far - by)) }),
  });
};

/** The gain, rounded down to three figures, at which everything from nearest to farthest is sharp. */
export const rigGainThatFits = (job: Job): number | undefined => {
  const { near = 0, far = 0 } = job.rig ?? {};
  const setting = rigSettingOf(job);
  const scale = setting.printWidthMm / setting.keyWidth;
  if (near >= setting.keyDistance) return undefined;
  return sharpGain(rigDepth(setting), {
    frontMm: mm(-near * scale),
    behindMm: mm(far * scale),
  });
};

/**
 * The gain at which everything stays within one rib per view, rounded down, where the farthest moves `mostRibs` at
 * `gain`. Motion is proportional to the gain, and the key plane stays where it is.
 */
export const gainKeepingSharp = (gain: number, mostRibs: number): number =>
  roundedGain(gain / mostRibs);

/** The same for a range of depths; undefined when it is flat. */
export const sharpGain = (
  setting: DepthSetting,
  { frontMm, behindMm }: DepthRange,
): number | undefined => {
  const ribs = [frontMm, behindMm].map((z) => Math.abs(stepAt(setting, z)) / setting.lens.pitchMm);
  const most = Math.max(...ribs);
  return most > 0 ? gainKeepingSharp(setting.gain, most) : undefined;
};

/** Three figures, rounded down, within what a job may hold. */
export const roundedGain = (gain: number): number => {
  const digit = 10 ** (Math.floor(Math.log10(gain)) - 2);
  return Math.min(
    10,
    Math.max(0.001, Number((Math.floor(gain / digit + 1e-9) * digit).toPrecision(3))),
  );
};

export const setRigGain = (job: Job, gain: number): Job => setDepthGain(job, roundedGain(gain));

export const frameNeedsOf = (job: Job): FrameNeeds => ({
  widthMm: mm(job.print.widthMm),
  heightMm: mm(job.print.heightMm),
  ribs: job.ribs,
  pitchMm: mm(job.lens.pitchMm),
  distanceMm: mm(job.print.viewingDistanceMm),
  acrossDpi: gridOf(job).acrossDpi,
  alongDpi: gridOf(job).alongDpi,
  oversampling: job.rig?.oversampling ?? 2,
});

/** The frame to render: the chosen width in the print's shape, else the smallest frame that loses nothing. */
export const plannedFrame = (job: Job): FrameSize => {
  const needs = frameNeedsOf(job);
  const width = job.rig?.frameWidthPx;
  return width === undefined ? smallestFrame(needs) : frameAt(needs, width / needs.widthMm);
};
