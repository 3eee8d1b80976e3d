/** What a job kept before the trace is told of. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { findings } from '../../../src/job/findings/all.ts';
import { viewingPitchOf } from '../../../src/job/facts/sheet.ts';
import type { Job } from '../../../src/job/schema/job.ts';
import { newJob } from '../../../src/job/schema/job.ts';
import { restoreJob } from '../../../src/job/schema/migrate.ts';

const kept = (change: Partial<Job>): Job => {
  const { traced: _, ...old } = newJob();
  return { ...old, ...change };
};
const told = (job: Job) =>
  findings(job, { prepareFaults: new Map(), arrivalNotes: [] }).find(
    ({ id }) => id === 'now-traced',
  );
const proved = (readFromMm: number) => ({ viewingPitchMm: 25.4 / 59.95, readFromMm });

describe('a job kept before the trace', () => {
  test('is told what changed, and by how much', () => {
    // 60 LPI, 0.84 mm, n 1.5685, 400 mm. By t / n: 60 / (1 + 0.53554 / 400) = 59.920 LPI, zone 0.42333 × 400 /
    // 0.53554 = 316 mm. By the bench of tests/golden, g₀ = 0.506 and g' = 0.498 mm: 59.924 LPI and 340 mm.
    const trials: Job['trials'] = [];
    const finding = told(kept({ trials }));
    expect(finding?.figure).toContain('59.92 → 59.924 LPI');
    expect(finding?.figure).toContain('zone 316 → 340 mm');
    expect(finding?.figure).toContain('picture 0.126 % larger');
    expect(finding?.severity).toBe('note');
  });

  test('keeps the proved pitch at its distance, and says so', () => {
    const job = kept({ provedPitch: proved(400) });
    expect(25.4 / viewingPitchOf(job)).toBeCloseTo(59.95, 9);
    expect(told(job)?.figure).toContain('59.95 → 59.95 LPI');
    expect(told(job)?.reason).toContain('as it was read');
  });

  test('is told until it is noted; a new job and an empty one are not', () => {
    const job = kept({ provedPitch: proved(400) });
    const action = told(job)?.action;
    const after = action !== undefined && 'edit' in action ? action.edit(job) : job;
    expect(told(after)).toBeUndefined();
    expect(told(newJob())).toBeUndefined();
    expect(told(kept({}))).toBeUndefined();
  });

  test('opens as it was kept, and the shape of today opens too', () => {
    for (const name of ['10-filled', '11-traced']) {
      const file = new URL(`../schema/job-shapes/${name}.json`, import.meta.url);
      const restored = restoreJob(JSON.parse(readFileSync(file, 'utf8')));
      expect(restored.ok).toBe(true);
      if (restored.ok) expect(told(restored.job) === undefined).toBe(name === '11-traced');
    }
  });
});
