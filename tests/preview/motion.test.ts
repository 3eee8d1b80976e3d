import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { zoneWidth } from '../../src/core/lens/traced.ts';
import { mm, rad, radToDeg } from '../../src/core/units/units.ts';
import { swayHz, swayTilt } from '../../src/preview/sway.ts';
import { dragTilt, keyTilt, phoneTilt } from '../../src/preview/turn.ts';
import { benchGap } from '../golden/traced-by-bench.ts';

describe('the sway', () => {
  // WCAG 2.2, 2.3.1: not more than three flashes in any one second; a flash is a pair of opposing
  // changes. The hardest case: every view change is one, as with frames black and white in turn.
  it('never flashes more than three times in any one second, whatever the frames', () => {
    for (const views of [2, 3, 6, 12, 24, 60, 200]) {
      const viewAt = (seconds: number) =>
        Math.floor(((swayTilt(0.3, seconds, views - 1) + 1) / 2) * views);
      const step = 1 / 600;
      const changes: number[] = [];
      const period = 1 / swayHz(views - 1);
      for (let t = step; t < period + 1; t += step)
        if (viewAt(t) !== viewAt(t - step)) changes.push(t);
      for (const from of changes) {
        const within = changes.filter((t) => t >= from && t < from + 1).length;
        expect(within / 2, `${views} views from ${from} s`).toBeLessThanOrEqual(3);
      }
      expect(changes.length, `${views} views`).toBeGreaterThanOrEqual(2);
    }
  });

  it('takes four seconds there and back at the least', () => {
    fc.assert(
      fc.property(fc.nat(200), (changes) => {
        expect(swayHz(changes)).toBeLessThanOrEqual(0.25);
        expect(swayHz(changes + 1)).toBeLessThanOrEqual(swayHz(changes));
      }),
    );
  });

  it('begins where the proof stands, and keeps short of the jump at the zone’s ends', () => {
    expect(swayTilt(0.4, 0, 11)).toBeCloseTo(0.4, 12);
    for (let t = 0; t < 20; t += 0.01) expect(Math.abs(swayTilt(1, t, 3))).toBeLessThan(0.95);
  });
});

describe('a drag', () => {
  it('over the whole picture is the whole zone, and stops at its ends', () => {
    expect(dragTilt(-1, 500, 500)).toBe(1);
    expect(dragTilt(0, -125, 500)).toBe(-0.5);
    expect(dragTilt(0.9, 400, 500)).toBe(1);
  });
});

describe('keys on the picture', () => {
  it('walk the eye the way the arrow points, across the ribs only', () => {
    expect(keyTilt(0, 'ArrowRight', false, 12)).toBeGreaterThan(0);
    expect(keyTilt(0, 'ArrowLeft', false, 12)).toBeLessThan(0);
    expect(keyTilt(0, 'ArrowDown', false, 12)).toBeUndefined();
    expect(keyTilt(0, 'ArrowDown', true, 12)).toBeGreaterThan(0);
    expect(keyTilt(0, 'ArrowUp', true, 12)).toBeLessThan(0);
    expect(keyTilt(0, 'ArrowRight', true, 12)).toBeUndefined();
  });

  it('reach every view with two presses a view', () => {
    let tilt = keyTilt(0, 'Home', false, 12) ?? NaN;
    for (let press = 0; press < 24; press += 1)
      tilt = keyTilt(tilt, 'ArrowRight', false, 12) ?? NaN;
    expect(tilt).toBeCloseTo(1, 12);
    expect(keyTilt(0, 'End', false, 12)).toBe(1);
    expect(keyTilt(0, 'a', false, 12)).toBeUndefined();
  });
});

describe('a phone', () => {
  const lens = { pitchMm: mm(25.4 / 60), thicknessMm: mm(0.84), index: 1.5685 };
  // g' of this lens by the bench’s own trace.
  const gapOverPitch = benchGap({ ...lens, radiusMm: (0.84 * 0.5685) / 1.5685 }) / (25.4 / 60);

  it('turned by half the zone’s angle stands at its end (relation 4)', () => {
    const half = radToDeg(rad(Math.atan(1 / (2 * gapOverPitch))));
    expect(phoneTilt(-half * 0.999, gapOverPitch)).toBeCloseTo(1, 2);
    expect(phoneTilt(half * 0.999, gapOverPitch)).toBeCloseTo(-1, 2);
  });

  it('turned with its right side away is seen from the left', () => {
    expect(phoneTilt(5, gapOverPitch)).toBeLessThan(0);
    expect(phoneTilt(0, gapOverPitch)).toBeCloseTo(0, 12);
  });

  // Relation 1: an eye at −D tan α, over the zone p D / g', from its middle; the distance falls out.
  it('shows what an eye at that angle sees, one zone on begun again', () => {
    fc.assert(
      fc.property(fc.double({ min: -40, max: 40, noNaN: true }), (turned) => {
        const distance = mm(700);
        const eye = -distance * Math.tan((turned * Math.PI) / 180);
        const zones = eye / zoneWidth(lens, distance) - phoneTilt(turned, gapOverPitch) / 2;
        expect(Math.abs(zones - Math.round(zones))).toBeLessThan(5e-3);
        expect(Math.abs(phoneTilt(turned, gapOverPitch))).toBeLessThanOrEqual(1);
      }),
    );
  });
});
