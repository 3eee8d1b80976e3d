/** Which cause is named first, by pictures of the wall and by counts. */
import { describe, expect, test } from 'vitest';
import type { Counts } from '../../../src/core/mend/counts.ts';
import { rankCauses } from '../../../src/core/mend/rank.ts';
import { SYMPTOMS } from '../../../src/core/mend/symptoms.ts';
import { setup } from './setup.ts';

describe('ranking', () => {
  const rank = (chosen: readonly (typeof SYMPTOMS)[number]['id'][], counts: Counts = {}) =>
    rankCauses(setup, { chosen, counts });

  test('each picture of the wall, chosen alone, puts its own first cause on top and asks for its numbers', () => {
    for (const symptom of SYMPTOMS) {
      const [first] = rank([symptom.id]);
      expect(symptom.causes.slice(0, 2)).toContain(first!.cause);
      expect(first!.asks.length).toBeGreaterThan(0);
    }
  });

  test('what is not known leaves a cause where it was; a count moves it', () => {
    const before = rank(['too-coarse']).find(({ cause }) => cause === 'pitch')!;
    const counts = {
      bandsAcross: 3,
      run: 'against',
      barAcross: { drawnMm: 200, measuredMm: 200 },
    } as const;
    const after = rank(['too-coarse'], counts).find(({ cause }) => cause === 'pitch')!;
    expect(after.confidence).toBeGreaterThan(Math.max(0.95, before.confidence));
    expect(after.zones).toBeCloseTo(3, 1);
    expect(before.zones).toBeUndefined();
  });

  test('the same bands are the driver’s where the ruler says so', () => {
    // A page drawn 1 % small: 480 ribs × 1 % too many lines, 4.8 bands, with the head.
    const bands = { bandsAcross: 4.75, run: 'with' } as const;
    const small = rank([], { ...bands, barAcross: { drawnMm: 200, measuredMm: 198 } });
    const right = rank([], { ...bands, barAcross: { drawnMm: 200, measuredMm: 200 } });
    expect(small[0]!.cause).toBe('scale');
    expect(right[0]!.cause).toBe('pitch');
  });

  test('equally sure causes come in the order of what they spend', () => {
    const counts = { bandsAcross: 2, bandsAlong: 5, run: 'with', lean: 'forth' } as const;
    expect(
      rank([], counts)
        .slice(0, 2)
        .map(({ cause }) => cause),
    ).toEqual(['skew', 'pitch']);
  });
});
