import { describe, expect, test } from 'vitest';
import {
  detailLeft,
  hoursFor,
  naiveFrame,
  rowsPerMm,
  smallestFrame,
} from '../../../src/core/plan/render-plan.ts';
import { mm } from '../../../src/core/units/units.ts';

const needs = {
  widthMm: mm(203.2),
  heightMm: mm(254),
  ribs: 'upright' as const,
  pitchMm: mm(25.4 / 60),
  distanceMm: mm(400),
  acrossDpi: 720,
  alongDpi: 360,
  oversampling: 2,
};

describe('render plan', () => {
  test('8 × 10 in at 720 × 360 dpi is 5760 × 3600 (arithmetic), turned 2880 × 7200', () => {
    expect(naiveFrame(needs)).toEqual({ widthPx: 5760, heightPx: 3600 });
    expect(naiveFrame({ ...needs, ribs: 'lying' })).toEqual({ widthPx: 2880, heightPx: 7200 });
  });
  test('rows: one minute of arc (ISO 8596, acuity 1.0) at 5 m is a gap of 1.454 mm; or the printer’s', () => {
    expect(1 / rowsPerMm({ ...needs, distanceMm: mm(5000) })).toBeCloseTo(1.4544, 4);
    expect(rowsPerMm({ ...needs, distanceMm: mm(50) })).toBeCloseTo(360 / 25.4, 12);
  });
  test('far away the lens decides: 8 in of 60 lenticules to the inch, two samples each', () => {
    const far = smallestFrame({ ...needs, distanceMm: mm(5000) });
    expect(far).toEqual({ widthPx: 8 * 60 * 2, heightPx: 10 * 60 * 2 });
    expect(detailLeft({ ...needs, distanceMm: mm(5000) }, far)).toEqual({ across: 1, along: 1 });
  });
  test('near by the eye decides, and half the frame shows half of it', () => {
    const near = smallestFrame(needs);
    expect(near.heightPx).toBe(Math.ceil(254 / (400 * Math.tan(Math.PI / 10800))));
    const half = { widthPx: near.widthPx / 2, heightPx: near.heightPx / 2 };
    expect(detailLeft(needs, half).along).toBeCloseTo(0.5, 3);
  });
  test('hours go with pixels and frames', () => {
    const timed = { hours: 3, widthPx: 1000, heightPx: 1000 };
    expect(hoursFor({ widthPx: 500, heightPx: 1000 }, 12, timed)).toBeCloseTo(18, 12);
  });
});
