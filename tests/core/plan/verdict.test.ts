import { describe, expect, test } from 'vitest';
import { verdict } from '../../../src/core/plan/verdict.ts';
import { mm } from '../../../src/core/units/units.ts';

const facts = {
  fit: { dots: 7.09, wholeFrames: 7, leftOver: 0.09 },
  viewSlots: 12,
  toldApart: 9,
  spotShare: 0.1,
  zoneMm: mm(497),
  eyesApartMm: mm(63),
  partsEyes: true,
  printsDepth: false,
};
const said = (change: Partial<Parameters<typeof verdict>[0]>) =>
  verdict({ ...facts, ...change })
    .reasons.map(({ text }) => text)
    .join('; ');

describe('the verdict', () => {
  test('never says that an eye tells more slots apart than it does', () => {
    for (const viewSlots of [7, 8, 9, 10, 12, 40])
      for (const toldApart of [2, 6, 7, 8, 9, 12])
        if (toldApart < viewSlots) expect(said({ viewSlots, toldApart })).not.toMatch(/tell all/);
    expect(said({ viewSlots: 9 })).toMatch(/can tell all 9 view slots apart/);
    expect(said({})).toMatch(/tells 9 apart/);
  });

  test('counts slots that share a dot against the dots alone, not against the lens as well', () => {
    const grades = verdict(facts).reasons.map(({ grade }) => grade);
    expect(grades.filter((grade) => grade !== 'well')).toHaveLength(1);
  });

  test('never tells shared dots as a loss for depth; flips lose by them', () => {
    const shares = [
      { viewSlots: 24 },
      { fit: { dots: 7.6, wholeFrames: 7, leftOver: 0.6 }, viewSlots: 7 },
    ];
    for (const share of shares) {
      const grades = (printsDepth: boolean) =>
        verdict({ ...facts, zoneMm: mm(300), toldApart: 40, ...share, printsDepth }).reasons.map(
          ({ grade }) => grade,
        );
      expect(grades(true).every((grade) => grade === 'well')).toBe(true);
      expect(grades(false)).toContain('losses');
    }
    expect(said({ viewSlots: 24, printsDepth: true })).toMatch(/shares dots without loss/);
    expect(said({ viewSlots: 24 })).toMatch(/some must share a dot/);
  });

  test('counts no ghost against views beyond the dots of a depth print', () => {
    const leak = { share: 0.9, most: 0.5 };
    expect(said({ viewSlots: 24, leak, printsDepth: true })).not.toMatch(/ghost/);
    expect(said({ viewSlots: 24, leak })).toMatch(/ghost/);
    expect(said({ viewSlots: 7, leak, printsDepth: true })).toMatch(/ghost/);
  });

  test('says lengths in the unit that is shown', () => {
    // 497 mm / 25.4 = 19.57 in.
    expect(said({ say: (length) => `${(length / 25.4).toFixed(2)} in` })).toMatch(
      /is 19\.57 in wide/,
    );
  });
});
