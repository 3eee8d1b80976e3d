/**
 * Where things fall in the views, to 1e-9, against relations 5 and 6 written out here: a ray from camera x_c through a
 * thing at X, z behind the key plane, meets it at X D/(D + z) + x_c z/(D + z), and the frame spans the key plane's width.
 */
import { describe, expect, test } from 'vitest';
import type { RigSetting } from '../../../src/core/plan/rig.ts';
import { frustumAt, rigOf } from '../../../src/core/plan/rig.ts';
import type { StagePose } from '../../../src/core/stage/pose.ts';
import {
  cameraOnStage,
  framedBox,
  framedBy,
  poseNumbers,
  poseOfNumbers,
  swungPose,
} from '../../../src/core/stage/pose.ts';
import type { Place } from '../../../src/core/stage/turn.ts';
import { turnAbout, turned, turnedBy } from '../../../src/core/stage/turn.ts';
import { partOfWindow, projectionOf, sampleShifts } from '../../../src/core/stage/window.ts';
import { mm } from '../../../src/core/units/units.ts';

const setting: RigSetting = {
  lens: { pitchMm: mm(25.4 / 60), thicknessMm: mm(0.84), index: 1.5685 },
  viewSlots: 12,
  gain: 0.4,
  printWidthMm: mm(200),
  printHeightMm: mm(150),
  keyWidth: 3,
  keyDistance: 5,
};
const rig = rigOf(setting);
const frame = { widthPx: 800, heightPx: 600 };
const front: StagePose = { middle: [0, 0, 0], turn: [0, 0, 0, 1] };

/** Column-major matrix times a place seen from the camera; pixels from the upper left. */
const pixelOf = (matrix: readonly number[], [x, y, z]: Place): [number, number] => {
  const row = (r: number) =>
    matrix[r]! * x + matrix[4 + r]! * y + matrix[8 + r]! * z + matrix[12 + r]!;
  const w = row(3);
  return [(frame.widthPx * (1 + row(0) / w)) / 2, (frame.heightPx * (1 - row(1) / w)) / 2];
};

const things: Place[] = [
  [0, 0, 0],
  [0.7, -0.4, 0.9],
  [-1.2, 0.8, -2.5],
  [0.3, 0.2, 2],
];

describe('each view of the rig', () => {
  const near = 0.01;
  for (const camera of rig.cameras)
    test(`view ${camera.view + 1} shows things where relations 5 and 6 have them`, () => {
      const { place, window } = cameraOnStage(front, rig, camera);
      const onNear = frustumAt(rig, camera, near);
      expect(window.left * near).toBeCloseTo(onNear.left, 12);
      const matrix = projectionOf(onNear, near, 100);
      for (const [X, Y, Z] of things) {
        // In the scene z runs towards the eye; the relations count it away from it.
        const [D, z] = [setting.keyDistance, -Z];
        const meets = (X * D + camera.x * z) / (D + z);
        const [px, py] = pixelOf(matrix, [X - place[0], Y - place[1], Z - place[2]]);
        expect(px).toBeCloseTo(frame.widthPx * (0.5 + meets / setting.keyWidth), 9);
        const height = (setting.keyWidth * 150) / 200;
        expect(py).toBeCloseTo(frame.heightPx * (0.5 - (Y * D) / (D + z) / height), 9);
      }
    });

  test('neighbours differ by Δ z / (D + z), which relation 6 counts in ribs', () => {
    const [one, two] = rig.cameras;
    const z = 1.5;
    const at = (camera: typeof one) => {
      const { place, window } = cameraOnStage(front, rig, camera!);
      return pixelOf(projectionOf(window, 1, 100), [-place[0], 0, -z - place[2]])[0];
    };
    const mmOnPrint = ((at(two) - at(one)) / frame.widthPx) * setting.printWidthMm;
    const stepMm = rig.step / rig.scale;
    expect(mmOnPrint).toBeCloseTo((stepMm * z) / (setting.keyDistance + z), 9);
  });
});

test('the matrix is that of glFrustum: a published stereo pair comes out', () => {
  // binocularity.org, page 26: screen 518.4 × 324 at 1000, eyes 65 apart, near 800.
  const left = { left: -181.36, right: 233.36, bottom: -129.6, top: 129.6 };
  const matrix = projectionOf(left, 800, 2000);
  // The eye stands at −32.5: the screen's own corners must fall on the corners of the clip space.
  const [px, py] = pixelOf(matrix, [259.2 + 32.5, 162, -1000]);
  expect([px, py].map((value) => Number(value.toFixed(6)))).toEqual([800, 0]);
});

test('tiles of a window lie beside each other, and shifts move samples within their pixels', () => {
  const window = frustumAt(rig, rig.cameras[0]!, 1);
  const left = partOfWindow(window, frame, { left: 0, top: 0, widthPx: 300, heightPx: 600 });
  const right = partOfWindow(window, frame, { left: 300, top: 0, widthPx: 500, heightPx: 600 });
  expect(left.left).toBeCloseTo(window.left, 12);
  expect(left.right).toBeCloseTo(right.left, 12);
  expect(right.right).toBeCloseTo(window.right, 12);
  const shifts = sampleShifts(32);
  for (const at of [0, 1] as const) {
    expect(shifts.reduce((sum, shift) => sum + shift[at], 0)).toBeCloseTo(0, 12);
    expect(Math.max(...shifts.map((shift) => Math.abs(shift[at])))).toBeLessThan(0.6);
  }
});

test('a turn of a quarter about the upright takes what is ahead to the left', () => {
  const quarter = turnAbout([0, 1, 0], Math.PI / 2);
  const [x, y, z] = turned(quarter, [0, 0, -1]);
  expect(x).toBeCloseTo(-1, 12);
  expect(y).toBeCloseTo(0, 12);
  expect(z).toBeCloseTo(0, 12);
  const half = turnedBy(quarter, quarter);
  expect(turned(half, [1, 0, 0])[0]).toBeCloseTo(-1, 12);
});

test('the rig swings about the middle of its key plane, and is kept as seven numbers', () => {
  const swung = swungPose({ middle: [1, 2, 3], turn: [0, 0, 0, 1] }, 0.4, -0.3);
  const { place } = cameraOnStage(swung, rig, { view: 0, x: 0, windowShift: 0 });
  expect(Math.hypot(place[0] - 1, place[1] - 2, place[2] - 3)).toBeCloseTo(5, 12);
  // The cameras rise, and look down.
  expect(place[1]).toBeGreaterThan(2);
  const again = poseOfNumbers(poseNumbers(swung));
  expect(again.turn[0]).toBeCloseTo(swung.turn[0], 9);
  expect(again.middle).toEqual([1, 2, 3]);
});

test('a box is framed whole, and a camera’s own frame is kept', () => {
  const [shape, standOff] = [0.75, 5 / 3];
  const { pose, keyWidth } = framedBox(
    [
      [-1, 0, -2],
      [3, 4, 2],
    ],
    shape,
    standOff,
  );
  expect(pose.middle).toEqual([1, 2, 0]);
  const distance = keyWidth * standOff;
  // The near face, 2 before the key plane: 4 wide and 4 high.
  const wideThere = (keyWidth * (distance - 2)) / distance;
  expect(wideThere).toBeGreaterThanOrEqual(4);
  expect(wideThere * shape).toBeGreaterThanOrEqual(4);
  const camera = { place: [0, 0, 10] as Place, turn: [0, 0, 0, 1] as const, wide: 0.8, high: 0.6 };
  const own = framedBy(camera, 10, 0.75);
  expect(own.keyWidth).toBeCloseTo(8, 12);
  expect(own.pose.middle[2]).toBeCloseTo(0, 12);
});
