/** The rig seen from outside, and the lines that stand for it. */
import type { Rig } from '../plan/rig.ts';
import type { StageCamera, StagePose } from './pose.ts';
import { cameraOnStage, shiftedPose, swungPose } from './pose.ts';
import type { Place } from './turn.ts';
import { plus, turned } from './turn.ts';

/** From above the right shoulder of whoever stands at the cameras. */
const ASIDE_RAD = 0.95;
const ABOVE_RAD = 0.42;

/** A camera that sees the row of cameras, the key plane and as much again behind it. */
export const outsideCamera = (pose: StagePose, rig: Rig): StageCamera => {
  const size = rig.keyDistance + rig.keyWidth;
  const about = shiftedPose(pose, 0, 0, -rig.keyDistance / 2);
  const shape = rig.keyHeight / rig.keyWidth;
  const wide = 1.25 * size;
  const far = { ...rig, keyDistance: 2.5 * size, keyWidth: wide, keyHeight: wide * shape };
  const aside = swungPose(about, ASIDE_RAD, -ABOVE_RAD);
  return cameraOnStage(aside, far, { view: -1, x: 0, windowShift: 0 });
};

export interface RigLine {
  readonly from: Place;
  readonly to: Place;
  readonly of: 'key' | 'camera' | 'limit';
}

const round = (corners: readonly Place[], of: RigLine['of']): RigLine[] =>
  corners.map((from, at) => ({ from, to: corners[(at + 1) % corners.length] ?? from, of }));

/**
 * The row, the windows of its ends, the key plane, and where the lens stops being sharp: `front` and `behind` the key
 * plane, scene units (not drawn where they are not finite).
 */
export const rigLines = (
  { middle, turn }: StagePose,
  rig: Rig,
  { front, behind }: { readonly front: number; readonly behind: number },
): RigLine[] => {
  const at = (x: number, y: number, z: number): Place => plus(middle, turned(turn, [x, y, z]));
  /** The middle camera’s window so far behind the key plane. */
  const windowAt = (z: number): Place[] => {
    const share = (rig.keyDistance + z) / rig.keyDistance;
    const [x, y] = [(rig.keyWidth / 2) * share, (rig.keyHeight / 2) * share];
    return [at(-x, -y, -z), at(x, -y, -z), at(x, y, -z), at(-x, y, -z)];
  };
  const ends = [rig.cameras[0], rig.cameras.at(-1)].flatMap((camera) => camera ?? []);
  const eye = (x: number) => at(x, 0, rig.keyDistance);
  const [first, last] = ends;
  return [
    ...[-front, behind]
      .filter((z) => Number.isFinite(z) && z > -rig.keyDistance && z < 20 * rig.keyDistance)
      .flatMap((z) => round(windowAt(z), 'limit')),
    ...ends.flatMap(({ x }) =>
      windowAt(0).map((to): RigLine => ({ from: eye(x), to, of: 'camera' })),
    ),
    ...(first === undefined || last === undefined
      ? []
      : [{ from: eye(first.x), to: eye(last.x), of: 'camera' } as const]),
    ...round(windowAt(0), 'key'),
  ];
};
