/** Edits of the stage: the rig moved through its scene, and how the scene is drawn. */
import {
  lookDownRad,
  poseNumbers,
  poseOfNumbers,
  shiftedPose,
  swungPose,
} from '../../core/stage/pose.ts';
import type { StagePose } from '../../core/stage/pose.ts';
import { keyDistanceOf, keyWidthOf, setRig } from '../facts/rig.ts';
import { moveKeyOnStage, setStage } from '../facts/stage.ts';
import type { Job } from '../schema/job.ts';
import { editsOf } from './edit.ts';

export const changeStage = editsOf('stage', setStage);

/** What a drag over the picture moves. */
export type StageHand = 'turn' | 'move' | 'key';

const posed = (job: Job, edit: (pose: StagePose) => StagePose): Job =>
  job.stage === undefined
    ? job
    : setStage(job, { pose: poseNumbers(edit(poseOfNumbers(job.stage.pose))) });

/** A drag from edge to edge turns so far. */
const TURN_RAD = Math.PI;
/** Cameras stop short of straight above and below, where "upright" means nothing. */
const STEEPEST_RAD = 1.5;

/** @param right @param down shares of the picture’s width and height */
export const dragStage = (job: Job, hand: StageHand, right: number, down: number): Job => {
  const width = keyWidthOf(job);
  const height = (width * job.print.heightMm) / job.print.widthMm;
  if (hand === 'move')
    return posed(job, (pose) => shiftedPose(pose, -right * width, down * height, 0));
  if (hand === 'key') {
    const distance = keyDistanceOf(job);
    return moveKeyOnStage(job, Math.max(-0.9 * distance, -down * distance));
  }
  return posed(job, (pose) => {
    const steep = lookDownRad(pose);
    const wanted = Math.min(STEEPEST_RAD, Math.max(-STEEPEST_RAD, steep + down * TURN_RAD));
    return swungPose(pose, -right * TURN_RAD, steep - wanted);
  });
};

/** A wider frame around the same place (above 1) or a narrower one; cameras with their own distance keep their angle. */
export const widenStage = (job: Job, times: number): Job => {
  const six = (value: number) => Number(value.toPrecision(6));
  return setRig(job, {
    keyWidth: six(keyWidthOf(job) * times),
    ...(job.rig?.stand === 'own' ? { keyDistance: six(keyDistanceOf(job) * times) } : {}),
  });
};

/** The key plane through what lies so far from the cameras. */
export const keyThrough = (job: Job, away: number): Job =>
  moveKeyOnStage(job, away - keyDistanceOf(job));
