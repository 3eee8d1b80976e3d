import { expect, test } from 'vitest';
import { stepAt } from '../../../src/core/plan/depth.ts';
import { rigDepth } from '../../../src/core/plan/rig.ts';
import { mm } from '../../../src/core/units/units.ts';
import { newJob } from '../../../src/job/schema/job.ts';
import { gainRemedy, planFindings } from '../../../src/job/findings/plan.ts';
import { rigFinding } from '../../../src/job/findings/rig.ts';
import { gainKeepingSharp, rigGainThatFits, rigSettingOf } from '../../../src/job/facts/rig.ts';
import { usualGapMm } from '../../golden/traced-by-bench.ts';

test('a scene too deep is found, and the remedy brings both ends within one rib per view', () => {
  const job = { ...newJob(), depthGain: 1, rig: { near: 30, far: 500 } };
  const finding = rigFinding(job);
  const action = finding?.action;
  if (action === undefined || !('edit' in action)) throw new Error('No remedy was offered.');
  const mended = action.edit(job);
  for (const z of [-30, 500])
    // Relation 6: sharp while |s| ≤ p.
    expect(Math.abs(stepAt(rigDepth(rigSettingOf(mended)), mm(z)))).toBeLessThanOrEqual(25.4 / 60);
  expect(rigFinding(mended)).toBeUndefined();
  expect(rigFinding({ ...job, ribs: 'lying' })).toBeUndefined();
  expect(rigFinding({ ...job, rig: {} })).toBeUndefined();
});

test('Plan, Shoot and what is measured or made give one gain for one depth', () => {
  for (const [near, far] of [
    [30, 500],
    [190, 40],
    [0, 70],
  ] as const) {
    const depthMarks = [-near, far].map((zMm) => ({ name: '', zMm }));
    const job = { ...newJob(), depthGain: 1, depthMarks, rig: { near, far } };
    // 400 mm, twelve views: D z / (N g' (D + z)) ribs per view at a gain of 1 (relation 6), g' by the bench.
    const most = Math.max(
      ...[-near, far].map((z) => Math.abs((400 * z) / (12 * usualGapMm * (400 + z)))),
    );
    const gain = rigGainThatFits(job) ?? NaN;
    // Rounded down to three figures; the bench's gap has four.
    expect(gain).toBeLessThanOrEqual((1 / most) * 1.0005);
    expect(gain).toBeGreaterThan((1 / most) * 0.989);
    // Frames made or measured at this depth ask the same function.
    expect(gainKeepingSharp(1, most)).toBeCloseTo(gain, 3);
    expect(gainRemedy(job)?.gain).toBe(gain);
    const remedies = [rigFinding(job), ...planFindings(job)].flatMap((finding) =>
      finding?.remedy.includes('depth gain of') === true ? [finding.remedy] : [],
    );
    expect(remedies).toHaveLength(2);
    for (const remedy of remedies) expect(remedy).toContain(`A depth gain of ${gain} keeps`);
  }
});
