/**
 * The rig against three's cameras, the published off-axis frustum, the published UsdGeomCamera schema
 * and a reader of USD text that is not ours (three's USDAParser).
 */
import { PerspectiveCamera, Vector3 } from 'three';
import { USDAParser } from 'three/addons/loaders/usd/USDAParser.js';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { LensSheet } from '../../../src/core/lens/lens.ts';
import { tracedGap } from '../../../src/core/lens/traced-gap.ts';
import { stepAt } from '../../../src/core/plan/depth.ts';
import type { Rig, RigSetting } from '../../../src/core/plan/rig.ts';
import {
  distanceFor,
  focalFor,
  frustumAt,
  rigDepth,
  rigOf,
  rigRange,
  seenDepth,
} from '../../../src/core/plan/rig.ts';
import { rigTable, toCsv, toTsv } from '../../../src/core/plan/rig-table.ts';
import { distortionOf, railWidth, turnOf } from '../../../src/core/plan/turned.ts';
import { usdaAnimated, usdaRow } from '../../../src/core/plan/usda.ts';
import { mm } from '../../../src/core/units/units.ts';

const lens: LensSheet = { pitchMm: mm(25.4 / 60), thicknessMm: mm(0.84), index: 1.5685 };
const setting: RigSetting = {
  lens,
  viewSlots: 12,
  gain: 0.4,
  printWidthMm: mm(203.2),
  printHeightMm: mm(254),
  keyWidth: 4,
  keyDistance: 7.5,
};

/** The gain at which neighbouring cameras stand so far apart: relation 5 solved for γ. */
const gainFor = (one: RigSetting, step: number): number =>
  (step * one.viewSlots * tracedGap(one.lens)) / (one.keyDistance * one.lens.pitchMm);

/** Two eyes 65 apart, 1000 from a screen 518.4 × 324. */
const pair: RigSetting = (() => {
  const one = {
    ...setting,
    viewSlots: 2,
    printWidthMm: mm(518.4),
    printHeightMm: mm(324),
    keyWidth: 518.4,
    keyDistance: 1000,
  };
  return { ...one, gain: gainFor(one, 65) };
})();

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

const choices = { title: 'Pier', unitName: 'cm', unitMm: 10, sensorMm: 36 };
const numbers = (text: unknown): number[] =>
  String(text)
    .match(/-?[\d.]+(e[-+]?\d+)?/g)!
    .map(Number);

/** Every `type name = value` and `type name.timeSamples = { t: value }` of a prim's text, by its names. */
const parsed = (text: string) =>
  new USDAParser().parseText(text) as Record<string, Record<string, Record<string, unknown>>>;

/** Left, right of the window at unit distance, by GfCamera::GetFrustum of the published source. */
const windowOf = (aperture: number, offset: number, focal: number) => [
  (-aperture / 2 + offset) / focal,
  (aperture / 2 + offset) / focal,
];

describe('OpenUSD text', () => {
  const rig = rigOf(setting);

  test('one camera a view: another’s parser reads cameras that see the frusta of the rig', () => {
    const layer = parsed(usdaRow(rig, choices));
    expect(Object.keys(layer)[0]).toBe('#usda 1.0');
    const row = layer['def Xform "Rig"']!;
    const names = Object.keys(row).filter((name) => name.startsWith('def Camera'));
    expect(names).toHaveLength(12);
    expect(names[0]).toBe('def Camera "View_01"');
    names.forEach((name, view) => {
      const camera = row[name]!;
      const value = (key: string) => numbers(camera[key]);
      const [aperture] = value('float horizontalAperture');
      const [tall] = value('float verticalAperture');
      const [offset] = value('float horizontalApertureOffset');
      const [focal] = value('float focalLength');
      const [x, y, z] = value('double3 xformOp:translate');
      expect(x).toBeCloseTo(rig.cameras[view]!.x, 10);
      expect([y, z]).toEqual([0, 7.5]);
      // Tenths of a scene unit: with centimetres they are millimetres.
      expect(aperture).toBe(36);
      const edges = frustumAt(rig, rig.cameras[view]!, 1);
      const [left, right] = windowOf(aperture!, offset!, focal!);
      expect(Math.abs(left! - edges.left)).toBeLessThan(1e-6 * (right! - left!));
      expect(Math.abs(right! - edges.right)).toBeLessThan(1e-6 * (right! - left!));
      expect(windowOf(tall!, 0, focal!)[1]).toBeCloseTo(edges.top, 9);
      expect(Math.sign(offset!)).toBe(-Math.sign(x!));
    });
  });

  test('one camera over N times: places and offsets sampled at 1 … N', () => {
    const text = usdaAnimated(rig, choices);
    const camera = parsed(text)['def Xform "Rig"']!['def Camera "Camera"']!;
    const offsets = camera['float horizontalApertureOffset.timeSamples'] as Record<string, unknown>;
    const places = camera['double3 xformOp:translate.timeSamples'] as Record<string, unknown>;
    expect(Object.keys(offsets)).toEqual(rig.cameras.map(({ view }) => String(view + 1)));
    expect(Object.keys(places)).toEqual(Object.keys(offsets));
    for (const { view, x, windowShift } of rig.cameras) {
      expect(numbers(offsets[view + 1])[0]).toBeCloseTo(windowShift * 36, 9);
      expect(numbers(places[view + 1])[0]).toBeCloseTo(x, 9);
    }
    expect(text).toMatch(/startTimeCode = 1\n\s+endTimeCode = 12\n/);
  });

  test('the rig of docs/optics.md in centimetres: offset +1.625 for the left eye at focal 50', () => {
    // Computed there from the schema: window = (±aperture / 2 + offset) / focal. Pair in millimetres
    // → centimetres; sensor chosen so that the focal length is the schema’s default 50.
    const inCm = { ...pair, keyWidth: 51.84, keyDistance: 100 };
    const text = usdaRow(rigOf(inCm), { ...choices, sensorMm: (50 * 51.84) / 100 });
    const left = parsed(text)['def Xform "Rig"']!['def Camera "View_01"']!;
    expect(numbers(left['float horizontalApertureOffset'])[0]).toBeCloseTo(1.625, 9);
    expect(numbers(left['float focalLength'])[0]).toBeCloseTo(50, 9);
  });

  test('in metres a 36 mm sensor is 0.36: tenths of a unit', () => {
    // The schema’s own reasoning on units; a 25 mm lens on a metre stage is written 0.25.
    const text = usdaRow(rig, { ...choices, unitName: 'm', unitMm: 1000 });
    expect(text).toContain('float horizontalAperture = 0.36\n');
    expect(text).toContain('metersPerUnit = 1\n');
  });

  test('every line is of the published text grammar, and conventions are stated', () => {
    // Prim, attribute and metadata lines of the crate's text form as the published schema writes them.
    const line =
      /^(#.*|\(|\)|\{|\}|def (Xform|Camera) "\w+"|(defaultPrim|upAxis) = "\w+"|\w+ = [-\d.e]+|token projection = "perspective"|uniform token\[\] xformOpOrder = \["xformOp:translate"\]|float \w+ = [-\d.e]+|float2 clippingRange = \([-\d.e]+, [-\d.e]+\)|double3 xformOp:translate = \([-\d.e]+, 0, [-\d.e]+\)|(float|double3) [\w:]+\.timeSamples = \{|\d+: ([-\d.e]+|\([-\d.e]+, 0, [-\d.e]+\)),|)$/;
    for (const text of [usdaRow(rig, choices), usdaAnimated(rig, choices)]) {
      for (const one of text.split('\n')) expect(one.trim()).toMatch(line);
      for (const said of ['right-handed', 'Y up', '-Z', 'Offset sign', '10 mm', 'tenths'])
        expect(text).toContain(said);
    }
  });

  test('a title cannot break out of its comment', () => {
    const text = usdaRow(rig, { ...choices, title: 'a\n"b" \\ def Xform "c"' });
    expect(Object.keys(parsed(text)).filter((key) => key.startsWith('def'))).toHaveLength(1);
  });
});

describe('table', () => {
  const rig = rigOf(setting);
  const table = rigTable(rig, {
    unitName: 'm',
    unitMm: 1000,
    sensorMm: 36,
    framePx: { widthPx: 1000, heightPx: 1250 },
  });
  test('CSV and TSV hold a row a view and say their conventions', () => {
    const csv = toCsv(table).split('\r\n');
    const body = csv.filter((one) => !one.startsWith('#') && one !== '');
    expect(body).toHaveLength(13);
    expect(body[0]).toMatch(/^view,camera_x_m,camera_y_m,camera_z_m,window_shift,/);
    expect(csv.some((one) => one.startsWith('# Right-handed'))).toBe(true);
    expect(toTsv(table).split('\n')[1]!.split('\t')).toEqual(body[1]!.split(','));
  });
  test('the rail’s crops lie inside the wider photograph and show the window', () => {
    // By similar triangles: a straight camera at x sees x ± wide · W / 2 on the key plane.
    const wide = railWidth(rig) * rig.keyWidth;
    for (const [i, { x }] of rig.cameras.entries()) {
      const cropPx = table.rows[i]![table.head.indexOf('rail_crop_px')]!;
      expect(x - wide / 2 + (cropPx / 1000) * rig.keyWidth).toBeCloseTo(-rig.keyWidth / 2, 6);
      expect(cropPx).toBeGreaterThanOrEqual(-1e-6);
    }
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
