/** The rig against three's cameras, the published off-axis frustum and published camera parameters. */
import { PerspectiveCamera, Vector3 } from 'three';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { stepAt } from '../../../src/core/plan/depth.ts';
import type { Rig } from '../../../src/core/plan/rig.ts';
import {
  distanceFor,
  focalFor,
  frustumAt,
  rigDepth,
  rigOf,
  rigRange,
  seenDepth,
} from '../../../src/core/plan/rig.ts';
import { distortionOf, turnOf } from '../../../src/core/plan/turned.ts';
import { mm } from '../../../src/core/units/units.ts';
import { gainFor, pair, setting } from './rig-settings.ts';

/**
 * Where a camera of three shows a point, shares of the frame from its top left: a wide symmetric
 * camera of which `setViewOffset` cuts out the window.
 */
const inThree = (rig: Rig, view: number, point: Vector3): [number, number] => {
  const { x, windowShift } = rig.cameras[view]!;
  const wide = 1 + 2 * Math.abs(windowShift);
  const [width, height] = [1e6, (1e6 * rig.keyHeight) / rig.keyWidth];
  const fov = (2 * Math.atan(rig.keyHeight / 2 / rig.keyDistance) * 180) / Math.PI;
  const camera = new PerspectiveCamera(fov, (wide * width) / height, rig.keyDistance / 10, 1e6);
  const cut = ((wide - 1) / 2 + windowShift) * width;
  camera.setViewOffset(wide * width, height, cut, 0, width, height);
  camera.position.set(x, 0, rig.keyDistance);
  camera.updateMatrixWorld();
  const seen = point.clone().project(camera);
  return [(seen.x + 1) / 2, (1 - seen.y) / 2];
};

describe('against three’s cameras, to 1e-6 of the frame', () => {
  test('window and frustum show the same place', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 11 }),
        fc.double({ min: -3, max: 3, noNaN: true }),
        fc.double({ min: -3, max: 3, noNaN: true }),
        fc.double({ min: -6, max: 60, noNaN: true }),
        (view, x, y, behind) => {
          const rig = rigOf(setting);
          const camera = rig.cameras[view]!;
          const ahead = rig.keyDistance + behind;
          const edges = frustumAt(rig, camera, ahead);
          const [across, down] = inThree(rig, view, new Vector3(x, y, -behind));
          expect(
            Math.abs((x - camera.x - edges.left) / (edges.right - edges.left) - across),
          ).toBeLessThan(1e-6);
          expect(Math.abs((edges.top - y) / (edges.top - edges.bottom) - down)).toBeLessThan(1e-6);
        },
      ),
    );
  });

  test('the key-plane rectangle fills every view', () => {
    const rig = rigOf(setting);
    for (const { view } of rig.cameras) {
      const [left, top] = inThree(rig, view, new Vector3(-rig.keyWidth / 2, rig.keyHeight / 2, 0));
      const [right, bottom] = inThree(
        rig,
        view,
        new Vector3(rig.keyWidth / 2, -rig.keyHeight / 2, 0),
      );
      for (const off of [left, top, right - 1, bottom - 1])
        expect(Math.abs(off)).toBeLessThan(1e-6);
    }
  });

  test('things move as relation 6 says: with the camera behind the key plane, against it before', () => {
    const rig = rigOf(setting);
    for (const behind of [-2, -0.5, 0, 1, 20]) {
      const at = (view: number) => inThree(rig, view, new Vector3(0.3, -0.2, -behind))[0];
      const moved = (at(6) - at(5)) * 203.2;
      const planned = stepAt(rigDepth(setting), mm(behind / rig.scale));
      expect(Math.abs(moved - planned) / 203.2).toBeLessThan(1e-6);
      expect(Math.sign(Math.round(moved * 1e6))).toBe(Math.sign(behind));
    }
  });

  test('what lies between the sharp limits moves at most a lenticule from view to view', () => {
    const rig = rigOf(setting);
    const { front, behind } = rigRange(setting, 1);
    for (const z of [-front, behind]) {
      const at = (view: number) => inThree(rig, view, new Vector3(0, 0, -z))[0];
      expect(Math.abs(at(1) - at(0)) * 203.2).toBeCloseTo(25.4 / 60, 4);
    }
  });
});

test('the published off-axis frustum: screen 518.4 × 324 at 1000, eyes 65 apart, near 800', () => {
  // Stereo-pair tutorial, binocularity.org page 26 (docs/optics.md).
  const rig = rigOf(pair);
  const [left, right] = rig.cameras.map((camera) => frustumAt(rig, camera, 800));
  expect(left!.left).toBeCloseTo(-181.36, 9);
  expect(left!.right).toBeCloseTo(233.36, 9);
  expect(right!.left).toBeCloseTo(-233.36, 9);
  expect(right!.right).toBeCloseTo(181.36, 9);
  expect([left!.bottom, left!.top].map((edge) => Number(edge.toFixed(9)))).toEqual([-129.6, 129.6]);
});

test('disparity with the published Balloons camera', () => {
  // z = 1/((v/255)(1/Znear − 1/Zfar) + 1/Zfar), f 2241.25607 px, spacing 5.0, Znear 448.251214, Zfar
  // 11206.280350 (published camera parameters of the sequence): v 255 → 25 px, v 0 → 1 px. Its
  // cameras are not shifted; with the key plane at Znear the window takes those 25 px away.
  const [near, far, focalPx, framePx] = [448.251214, 11206.28035, 2241.25607, 1024];
  const depthOf = (v: number) => 1 / ((v / 255) * (1 / near - 1 / far) + 1 / far);
  const one = { ...setting, viewSlots: 3, keyDistance: near, keyWidth: (framePx * near) / focalPx };
  const balloons = { ...one, gain: gainFor(one, 5) };
  const rig = rigOf(balloons);
  const shiftPx = (rig.cameras[0]!.windowShift - rig.cameras[1]!.windowShift) * framePx;
  expect(shiftPx).toBeCloseTo(25, 3);
  for (const [v, published] of [
    [255, 25],
    [0, 1],
  ] as const) {
    const z = mm((depthOf(v) - near) / rig.scale);
    const movedPx = (stepAt(rigDepth(balloons), z) / balloons.printWidthMm) * framePx;
    expect(shiftPx - movedPx).toBeCloseTo(published, 3);
  }
});

describe('a camera the person has', () => {
  test('50 mm on 36 mm sees 3.6 m at 5 m (similar triangles), and back', () => {
    expect(distanceFor(50, 36, 3.6)).toBeCloseTo(5, 12);
    expect(focalFor(36, 3.6, 5)).toBeCloseTo(50, 12);
  });
  test('another stand than the viewer’s keeps the movement of shallow depth', () => {
    const viewer = { ...setting, keyDistance: (4 * 400) / 203.2 };
    const closer = { ...setting, keyDistance: 5 };
    const shallow = 0.001;
    expect(seenDepth(closer, shallow, mm(400)) / seenDepth(viewer, shallow, mm(400))).toBeCloseTo(
      1,
      3,
    );
  });
});

describe('turned cameras', () => {
  test.each(['turned-in', 'turntable'] as const)('%s: as three’s lookAt sees it', (way) => {
    const rig = rigOf({ ...setting, gain: 1 });
    const { x } = rig.cameras.at(-1)!;
    const angle = turnOf(rig, x);
    const place = (side: number) =>
      way === 'turntable'
        ? new Vector3(side * Math.sin(angle) * 7.5, 0, Math.cos(angle) * 7.5)
        : new Vector3(side * x, 0, 7.5);
    const fov = (2 * Math.atan(rig.keyHeight / 2 / 7.5) * 180) / Math.PI;
    const corner = (side: number, cornerX: number) => {
      const camera = new PerspectiveCamera(fov, rig.keyWidth / rig.keyHeight, 0.1, 1000);
      camera.position.copy(place(side));
      camera.lookAt(0, 0, 0);
      camera.updateMatrixWorld();
      const seen = new Vector3(cornerX, rig.keyHeight / 2, 0).project(camera);
      return { x: (seen.x * 203.2) / 2, y: (seen.y * 254) / 2 };
    };
    const off = distortionOf(rig, way);
    const half = rig.keyWidth / 2;
    expect(off.keystone).toBeCloseTo(corner(1, half).y / corner(1, -half).y - 1, 9);
    expect(off.cornerMm).toBeCloseTo(Math.abs(corner(1, half).y - corner(-1, half).y), 6);
    expect(off.sideMm).toBeCloseTo(Math.abs(corner(1, half).x - corner(-1, half).x), 6);
    expect(off.cornerMm).toBeGreaterThan(0);
  });
});
