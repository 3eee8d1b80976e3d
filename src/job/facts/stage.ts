/** The stage of a job: where its cameras stand in the scene, how it is drawn, and what a rendered view depends on. */
import type { Rig } from '../../core/plan/rig.ts';
import { rigOf, rigRange } from '../../core/plan/rig.ts';
import type { RigLine } from '../../core/stage/outside.ts';
import { outsideCamera, rigLines } from '../../core/stage/outside.ts';
import type { Framing, StageCamera } from '../../core/stage/pose.ts';
import { cameraOnStage, poseNumbers, poseOfNumbers, shiftedPose } from '../../core/stage/pose.ts';
import type { ChangeOf } from '../schema/changed.ts';
import { changed } from '../schema/changed.ts';
import type { Frame, Job } from '../schema/job.ts';
import type { StageChoices } from '../schema/stage.ts';
import { digestOf } from './digest.ts';
import { keyDistanceOf, moveKeyPlane, plannedFrame, rigSettingOf, setRig } from './rig.ts';

export const GROUND = '#d9dee2';
export const SAMPLES = 32;

export const groundOf = ({ ground }: StageChoices): string => ground ?? GROUND;
export const samplesOf = ({ samples }: StageChoices): number => samples ?? SAMPLES;

/** Without a scene nothing changes. */
export const setStage = (job: Job, change: ChangeOf<StageChoices>): Job =>
  job.stage === undefined ? job : { ...job, stage: changed(job.stage, change) };

export const rigOnStage = (job: Job): Rig => rigOf(rigSettingOf(job));

/** Moves the key plane through the scene (below 0: towards the cameras); the cameras stay where they are. */
export const moveKeyOnStage = (job: Job, by: number): Job => {
  const moved = moveKeyPlane(job, by);
  if (moved === job || job.stage === undefined) return moved;
  const pose = shiftedPose(poseOfNumbers(job.stage.pose), 0, 0, by);
  return setStage(moved, { pose: poseNumbers(pose) });
};

/**
 * The key plane where nearest and farthest move equally: it lets the depth be largest. By relation 6 a thing at a from the
 * cameras moves by 1 − key/a, so this is the harmonic mean of the two.
 */
export const keyBetween = (job: Job): Job => {
  const { near = 0, far = 0 } = job.rig ?? {};
  const key = keyDistanceOf(job);
  const [nearest, farthest] = [key - near, key + far];
  if (!(nearest > 0) || near + far === 0) return job;
  return moveKeyOnStage(job, (2 * nearest * farthest) / (nearest + farthest) - key);
};

/** Turns the rig to what it should frame; what was known of the depth there no longer holds. */
export const setFraming = (job: Job, { pose, keyWidth }: Framing): Job =>
  setRig(setStage(job, { pose: poseNumbers(pose) }), {
    keyWidth: Number(keyWidth.toPrecision(6)),
    near: undefined,
    far: undefined,
  });

/** Place of the camera in the middle of the row, which an odd row has and an even one has not. */
const MIDDLE = { view: -1, x: 0, windowShift: 0 };

/** @param view from 0; undefined: from the middle of the row */
export const stageCamera = (job: Job, stage: StageChoices, view?: number): StageCamera => {
  const rig = rigOnStage(job);
  return cameraOnStage(poseOfNumbers(stage.pose), rig, rig.cameras[view ?? -1] ?? MIDDLE);
};

/** The rig from outside: the camera that sees it, and its lines. */
export const rigFromOutside = (
  job: Job,
  stage: StageChoices,
): { readonly camera: StageCamera; readonly lines: readonly RigLine[] } => {
  const [pose, rig] = [poseOfNumbers(stage.pose), rigOnStage(job)];
  return {
    camera: outsideCamera(pose, rig),
    lines: rigLines(pose, rig, rigRange(rigSettingOf(job), 1)),
  };
};

/** Ribs per view that a thing at infinity moves (relation 6). */
export const ribsAtInfinity = (job: Job): number => {
  const rig = rigOnStage(job);
  return rig.step / rig.scale / rigSettingOf(job).lens.pitchMm;
};

/** A clip runs from the first view to the last, both ends included. */
export const secondsAt = (view: number, views: number, seconds: number): number =>
  views < 2 ? 0 : (seconds * view) / (views - 1);

const short = (values: readonly number[]): number[] =>
  values.map((value) => Number(value.toPrecision(9)));

/** Everything that a rendered view depends on, in short. Equal keys: the same picture. */
export const viewKey = (job: Job, stage: StageChoices, view: number): string => {
  const { place, turn, window } = stageCamera(job, stage, view);
  const { widthPx, heightPx } = plannedFrame(job);
  const { fingerprint, clip, stops = 0 } = stage;
  return digestOf([
    fingerprint,
    short([...place, ...turn, window.left, window.right, window.bottom, window.top]),
    [widthPx, heightPx, samplesOf(stage), stops],
    groundOf(stage),
    clip === undefined ? [] : [clip, view, job.viewSlots],
  ]);
};

export interface StageView {
  readonly view: number;
  readonly key: string;
  /** The frame that shows it already. */
  readonly frame: Frame | undefined;
}

/** The views that this job’s rig, lens and scene ask for, and which of them are here. */
export const viewsWanted = (job: Job): readonly StageView[] => {
  const { stage } = job;
  if (stage === undefined) return [];
  const made = new Map(job.frames.map((frame) => [frame.made?.key ?? '', frame]));
  return Array.from({ length: job.viewSlots }, (_, view) => {
    const key = viewKey(job, stage, view);
    return { view, key, frame: made.get(key) };
  });
};

/** How the rendered views that the job has fit it: none here, all as they should be, or some for another rig. */
export const standOfViews = (job: Job): 'none' | 'fresh' | 'stale' => {
  const rendered = job.frames.filter(({ made }) => made?.way === 'stage');
  if (rendered.length === 0 || job.stage === undefined) return 'none';
  return viewsWanted(job).every(({ frame }) => frame !== undefined) ? 'fresh' : 'stale';
};
