import { expect, test } from 'vitest';
import { stepAt } from '../../../src/core/plan/depth.ts';
import { rigDepth } from '../../../src/core/plan/rig.ts';
import { mm } from '../../../src/core/units/units.ts';
import { newJob } from '../../../src/job/schema/job.ts';
import { rigFinding } from '../../../src/job/findings/rig.ts';
import { rigSettingOf } from '../../../src/job/facts/rig.ts';

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
