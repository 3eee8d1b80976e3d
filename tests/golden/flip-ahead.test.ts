/**
 * What a flip shows straight ahead, through the lens bench, which shares nothing with the studio: both eyes, from five
 * places, for both ways of the ribs.
 */
import { describe, expect, test } from 'vitest';
import type { Ahead } from '../../src/core/frames/flip-ahead.ts';
import { aheadZones, flipRuns } from '../../src/core/frames/flip-ahead.ts';
import { GHOST_SHARE } from '../../src/core/frames/recipes.ts';
import { changeAtDegrees, flipTurnsOf } from '../../src/job/facts/flip-changes.ts';
import { flipOf } from '../../src/job/facts/sheet.ts';
import { guardAdviceOf } from '../../src/job/edits/recipe.ts';
import { DISTANCE_MM, ZONE_MM, eyesOn, flipJob } from './flip-bench.ts';

const EYES_APART_MM = 63;

const placeOf = (degrees: number) => DISTANCE_MM * Math.tan((degrees * Math.PI) / 180);

/** Degrees at which one picture gives way to the other, as the bench sees it. */
const changesSeen = (see: ReturnType<typeof eyesOn>): number[] => {
  const step = 1;
  const changes: number[] = [];
  let before: number | undefined;
  for (let degrees = -21; degrees <= 21; degrees += step) {
    const [lit, out] = see(placeOf(degrees));
    const more = lit - out;
    if (before !== undefined && before * more < 0)
      changes.push(degrees - (step * more) / (more - before));
    before = more;
  }
  return changes;
};

describe.each(['upright', 'lying'] as const)('a flip under ribs that are %s', (ribs) => {
  const turned = changeAtDegrees(flipJob(ribs), 0, 6);
  test.each<[string, Ahead | undefined]>([
    ['nothing chosen: the change lies straight ahead', undefined],
    ['the first picture straight ahead', { show: 'picture', at: 0 }],
    ['the second picture straight ahead', { show: 'picture', at: 1 }],
    ['the change at 6° to the right', turned],
  ])('%s', (_, ahead) => {
    const job = flipJob(ribs, ahead);
    const see = eyesOn(job);
    const stated = flipTurnsOf(job);
    const within = stated.filter(({ degrees }) => Math.abs(degrees) < 20);
    const seen = changesSeen(see);
    expect(seen).toHaveLength(within.length);
    within.forEach(({ degrees }, i) => expect(Math.abs(seen[i]! - degrees)).toBeLessThan(1));

    // Both eyes from five places: each sees the picture that the changes state, clear of a change by a degree.
    let looked = 0;
    for (const headMm of [-80, -40, 0, 40, 80])
      for (const eyeMm of [headMm - EYES_APART_MM / 2, headMm + EYES_APART_MM / 2]) {
        const degrees = (Math.atan(eyeMm / DISTANCE_MM) * 180) / Math.PI;
        if (stated.some((change) => Math.abs(change.degrees - degrees) < 2)) continue;
        const past = stated.filter((change) => change.degrees < degrees).at(-1) ?? stated.at(-1);
        const picture = past?.to ?? 0;
        const shares = see(eyeMm);
        expect(shares[picture], `${eyeMm} mm sees picture ${picture + 1}`).toBeGreaterThan(0.75);
        looked += 1;
      }
    expect(looked).toBeGreaterThan(5);
  });

  test('what is chosen is what stands before the middle', () => {
    const middle = (ahead?: Ahead) => eyesOn(flipJob(ribs, ahead))(0);
    expect(middle({ show: 'picture', at: 0 })[0]).toBeGreaterThan(0.95);
    expect(middle({ show: 'picture', at: 1 })[1]).toBeGreaterThan(0.95);
    const [lit, out] = middle();
    expect(Math.abs(lit - out)).toBeLessThan(0.1);
  });

  test('a picture straight ahead has no ghost of the other, on neither side', () => {
    const first = { show: 'picture', at: 0 } as const;
    const guards = guardAdviceOf(flipJob(ribs)) ?? 0;
    expect(guards).toBeGreaterThan(0);
    const job = flipJob(ribs, first, guards);
    const see = eyesOn(job);
    const flip = flipOf(job)!;
    const { from, to } = flipRuns(flip)[0]!;
    for (let slot = from; slot < to; slot += 1) {
      const zones = (slot + 0.5) / job.viewSlots - 0.5 + aheadZones(flip);
      const [lit, out] = see(zones * ZONE_MM);
      expect(lit, `slot ${slot}`).toBeGreaterThan(0.8);
      expect(out, `slot ${slot}`).toBeLessThan(GHOST_SHARE);
    }
  });
});
