/** Where the rig stands in a scene, and how it is moved there. */
import type { Frustum, Rig, RigCamera } from '../plan/rig.ts';
import { frustumAt } from '../plan/rig.ts';
import type { Place, Turn } from './turn.ts';
import { NO_TURN, plus, turnAbout, turned, turnedBy } from './turn.ts';

/** The middle of the key plane, in the scene’s units, and how the cameras are turned. */
export interface StagePose {
  readonly middle: Place;
  readonly turn: Turn;
}

const RIGHT: Place = [1, 0, 0];
const UP: Place = [0, 1, 0];
const BACK: Place = [0, 0, 1];

export interface StageCamera {
  readonly place: Place;
  readonly turn: Turn;
  /** Edges of its window on the plane one unit in front of it, from its axis; y up. */
  readonly window: Frustum;
}

/** A camera of the rig in the scene: along the row by x, in front of the key plane by the rig’s distance. */
export const cameraOnStage = (
  { middle, turn }: StagePose,
  rig: Rig,
  camera: RigCamera,
): StageCamera => ({
  place: plus(middle, turned(turn, [camera.x, 0, rig.keyDistance])),
  turn,
  window: frustumAt(rig, camera, 1),
});

/** The whole rig moved to the right, up and away from the cameras, by its own axes. */
export const shiftedPose = (
  { middle, turn }: StagePose,
  right: number,
  up: number,
  away: number,
): StagePose => ({ turn, middle: plus(middle, turned(turn, [right, up, -away])) });

/** The rig swung about the middle of its key plane: about the scene’s upright, then up and down. */
export const swungPose = (
  { middle, turn }: StagePose,
  acrossRad: number,
  upRad: number,
): StagePose => ({
  middle,
  turn: turnedBy(turnAbout(UP, acrossRad), turnedBy(turn, turnAbout(RIGHT, upRad))),
});

/** How high the cameras look down (above 0) or up, in radians: swinging stops short of straight down. */
export const lookDownRad = ({ turn }: StagePose): number => {
  const [, y] = turned(turn, BACK);
  return Math.asin(Math.min(1, Math.max(-1, y)));
};

/** Seven numbers, as a job keeps them. */
export const poseNumbers = ({ middle, turn }: StagePose): number[] =>
  [...middle, ...turn].map((value) => Number(value.toPrecision(12)));

export const poseOfNumbers = (numbers: readonly number[]): StagePose => {
  const [x = 0, y = 0, z = 0, qx = 0, qy = 0, qz = 0, qw = 1] = numbers;
  // A turn about nothing keeps a unit length whatever was typed into the file.
  return { middle: [x, y, z], turn: turnedBy([qx, qy, qz, qw], [0, 0, 0, 1]) };
};

/** What a rig frames: its pose and the width at its key plane. */
export interface Framing {
  readonly pose: StagePose;
  readonly keyWidth: number;
}

/** Room beside a thing that is framed. */
const MARGIN = 1.06;

/**
 * From the front, the key plane through the middle of a box, and all of the box in the window.
 * @param shape height of the frame over its width
 * @param standOff distance of the cameras over the width at the key plane
 */
export const framedBox = (
  [least, most]: readonly [Place, Place],
  shape: number,
  standOff: number,
): Framing => {
  const size = (at: 0 | 1 | 2) => most[at] - least[at];
  const middle = (at: 0 | 1 | 2) => (most[at] + least[at]) / 2;
  // The near face, half the depth before the key plane, is seen that much larger.
  const nearer = size(2) / 2 / standOff;
  const widest = Math.max(size(0), size(1) / shape) || size(2) || 1;
  return {
    pose: { middle: [middle(0), middle(1), middle(2)], turn: NO_TURN },
    keyWidth: MARGIN * widest + nearer,
  };
};

/** A camera of the scene’s own, in the middle of the row: what it sees, as far as the frame’s shape allows. */
export const framedBy = (
  { place, turn, wide, high }: { place: Place; turn: Turn; wide: number; high: number },
  distance: number,
  shape: number,
): Framing => ({
  pose: { turn, middle: plus(place, turned(turn, [0, 0, -distance])) },
  keyWidth: distance * Math.min(wide, high / shape),
});

/** How far a place lies in front of a camera that looks along −z. */
export const depthFrom = (place: Place, turn: Turn, of: Place): number => {
  const ahead = turned(turn, [0, 0, -1]);
  return (
    (of[0] - place[0]) * ahead[0] + (of[1] - place[1]) * ahead[1] + (of[2] - place[2]) * ahead[2]
  );
};
