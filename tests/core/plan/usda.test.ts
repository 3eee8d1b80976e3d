/**
 * The rig as OpenUSD text, against the published UsdGeomCamera schema and a reader of USD text that is
 * not ours (three's USDAParser).
 */
import { USDAParser } from 'three/addons/loaders/usd/USDAParser.js';
import { describe, expect, test } from 'vitest';
import { frustumAt, rigOf } from '../../../src/core/plan/rig.ts';
import { usdaAnimated, usdaRow } from '../../../src/core/plan/usda.ts';
import { pair, setting } from './rig-settings.ts';

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
