/** Wide prints and people who walk by: by separate arithmetic, and against the lens bench, which knows no gap. */
import { describe, expect, test } from 'vitest';
import { gapAhead, tracedGap } from '../../../src/core/lens/traced.ts';
import { lensTypes } from '../../../src/core/plan/lens-types.ts';
import { edgeDoubt, edgeFacts, standBetween } from '../../../src/core/plan/wall.ts';
import {
  eyesApartShare,
  MOST_FLASHES,
  turningOf,
  walkPast,
  WALKING_MM_PER_S,
} from '../../../src/core/plan/walk-past.ts';
import { lpi, mm, radToDeg } from '../../../src/core/units/units.ts';
import { bundlesOfRib } from '../../golden/lens-bench.ts';

const lens = { pitchMm: mm(25.4 / 20), thicknessMm: mm(2.8), index: 1.57 };
const radiusMm = (2.8 * 0.57) / 1.57;
const wall = (acrossMm: number, distanceMm: number) => ({
  lens,
  acrossMm: mm(acrossMm),
  distanceMm: mm(distanceMm),
});

test('a 3-4-5 triangle: 1200 mm wide seen from 800 mm', () => {
  const edge = edgeFacts(wall(1200, 800));
  expect(edge.awayMm).toBeCloseTo(1000, 9);
  expect(edge.farAwayMm).toBeCloseTo(400 * Math.sqrt(13), 9);
  expect(radToDeg(edge.steepRad)).toBeCloseTo(36.8699, 4);
});

test('the edge rib’s cone is foreshortened', () => {
  const edge = edgeFacts(wall(1200, 800));
  const zone = (lens.pitchMm * 800) / tracedGap(lens);
  const toward = (x: number) => Math.atan2(x, 800);
  expect(edge.coneRad).toBeCloseTo(toward(600 + zone / 2) - toward(600 - zone / 2), 12);
  expect(edge.middleConeRad).toBeCloseTo(2 * toward(zone / 2), 12);
  expect(edge.coneRad).toBeLessThan(edge.middleConeRad);
});

/** Where the whole rib is looked at on the print, by the bench: middles of its bundles, by the angle they fill. */
const benchLanding = (crestMm: number, distanceMm: number): number => {
  const bench = { pitchMm: lens.pitchMm, thicknessMm: 2.8, radiusMm, index: 1.57 };
  const bundles = bundlesOfRib(bench, crestMm, { acrossMm: 0, distanceMm }, 256);
  const whole = bundles.reduce((sum, { share }) => sum + share, 0);
  return bundles.reduce((sum, { from, to, share }) => sum + ((from + to) / 2) * share, 0) / whole;
};

describe('the slide of the edge ribs, against the lens bench', () => {
  test.each([
    [400, 1000],
    [1000, 1000],
    [1200, 2000],
  ])('%d mm across from %d mm', (acrossMm, distanceMm) => {
    const crest = lens.pitchMm * Math.round(acrossMm / 2 / lens.pitchMm);
    const wovenAt = crest * (1 + gapAhead(lens) / distanceMm);
    const slide = (benchLanding(crest, distanceMm) - wovenAt) / lens.pitchMm;
    expect(edgeFacts(wall(2 * crest, distanceMm)).slideZones).toBeCloseTo(slide, 2);
  });
});

describe('where one may stand', () => {
  test.each([
    [1000, 1000, 0.25],
    [600, 2000, 0.25],
    [300, 3000, 0.5],
  ])('%d mm across from %d mm, %d of a zone', (acrossMm, distanceMm, budget) => {
    const [nearest, farthest] = standBetween(wall(acrossMm, distanceMm), budget);
    // By the bench: from there the two edge ribs show places that far apart.
    const slid = (from: number) => {
      const crest = lens.pitchMm * Math.round(acrossMm / 2 / lens.pitchMm);
      const woven = (D: number) => crest * (1 + gapAhead(lens) / D);
      return Math.abs(2 * (woven(from) - woven(distanceMm))) / lens.pitchMm;
    };
    expect(nearest).toBeLessThan(distanceMm);
    expect(slid(nearest)).toBeCloseTo(budget, 2);
    if (farthest === Infinity) expect(slid(1e9)).toBeLessThan(budget * 1.01);
    else expect(slid(farthest)).toBeCloseTo(budget, 2);
  });

  test('a wider print leaves less room, before it and behind', () => {
    const rooms = [200, 400, 800, 1600].map((wide) => standBetween(wall(wide, 1500), 0.25));
    for (const [at, [near, far]] of rooms.entries()) {
      const before = rooms[at - 1];
      if (before === undefined) continue;
      expect(near).toBeGreaterThan(before[0]);
      expect(far).toBeLessThanOrEqual(before[1]);
    }
  });
});

test('a pitch known to ±0.1 LPI moves each edge of a metre by nearly two zones', () => {
  expect(edgeDoubt(lpi(0.1), mm(1000))).toBeCloseTo((0.1 * 1000) / 25.4 / 2, 12);
});

describe('walking by', () => {
  test('the pace is the highest mean of Bohannon (1997), 1.462 m/s; the limit that of WCAG 2.3.1', () => {
    expect(WALKING_MM_PER_S).toBe(1462);
    expect(MOST_FLASHES).toBe(3);
  });

  test('light and dark in turn flash once a pair, with white or black between once a picture', () => {
    expect([2, 3, 4, 5].map((pictures) => turningOf(pictures).flashes)).toEqual([1, 1, 2, 2]);
    expect(turningOf(3, true).flashes).toBe(3);
  });

  test('by counting: a walker takes a picture every so many millimetres', () => {
    // Steps of a millimetre along the print: the place under the rib turns once a zone.
    const zone = (lens.pitchMm * 600) / tracedGap(lens);
    let [pictures, last] = [0, 0];
    for (let x = 1; x <= WALKING_MM_PER_S * 100; x += 1) {
      const shown = Math.floor((((x / zone) % 1) + 1) * 2) % 2;
      if (shown !== last) pictures += 1;
      last = shown;
    }
    const past = walkPast(lens, mm(600), turningOf(2));
    expect(past.secondsAPicture).toBeCloseTo(100 / pictures, 2);
    expect(past.flashesASecond).toBeCloseTo(pictures / 2 / 100, 1);
  });

  test('from the least distance on it keeps to the limit, and from nearer it does not', () => {
    for (const { lens: one, lpi: count, coneDeg } of lensTypes.filter(({ lpi: l }) => l === 40)) {
      const turning = turningOf(4);
      const { leastDistanceMm } = walkPast(one, mm(900), turning);
      const at = (by: number) => walkPast(one, mm(leastDistanceMm * by), turning).flashesASecond;
      expect(at(1), `${count} LPI, ${coneDeg}°`).toBeCloseTo(MOST_FLASHES, 9);
      expect(at(0.99)).toBeGreaterThan(MOST_FLASHES);
      expect(at(1.01)).toBeLessThan(MOST_FLASHES);
    }
  });

  test('two eyes see different pictures over their distance apart at each change', () => {
    const zone = (lens.pitchMm * 600) / tracedGap(lens);
    expect(eyesApartShare(lens, mm(600), 2, mm(63))).toBeCloseTo(126 / zone, 12);
    expect(eyesApartShare(lens, mm(60), 12, mm(63))).toBe(1);
  });
});
