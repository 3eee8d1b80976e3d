/** The job as a document: its limits, the edits that carry a consequence, and its way back from disk. */
import * as v from 'valibot';
import { describe, expect, it } from 'vitest';
import {
  setDensity,
  setLensPitch,
  setRibs,
  setViewSlots,
} from '../../src/job/edits/consequences.ts';
import type { Job } from '../../src/job/schema/job.ts';
import { jobSchema, newJob } from '../../src/job/schema/job.ts';
import { restoreJob } from '../../src/job/schema/migrate.ts';
import { sheetSpecOf } from '../../src/job/facts/sheet.ts';

const faultOf = (job: Job) => {
  const checked = v.safeParse(jobSchema, job);
  if (checked.success) return undefined;
  return { field: v.getDotPath(checked.issues[0]), message: checked.issues[0].message };
};

const proved = (): Job => ({
  ...newJob(),
  provedPitch: { viewingPitchMm: 0.424, readFromMm: 400 },
  slotsByHand: ['a', 'b'],
});

describe('limits', () => {
  it('accepts the job that a first visit opens with', () => {
    expect(faultOf(newJob())).toBeUndefined();
  });

  it.each<[string, Job, string]>([
    ['a pitch of 60 mm', setLensPitch(newJob(), 60), 'lens.pitchMm'],
    ['a density of nothing', setDensity(newJob(), { alongDpi: 0 }), 'printer.feedDpi'],
    ['half a view slot', setViewSlots(newJob(), 1.5), 'viewSlots'],
    ['a number that is none', setLensPitch(newJob(), NaN), 'lens.pitchMm'],
    // 25.4 / 200 = 0.127 mm a rib, 25.4 / 150 = 0.169 mm a dot.
    [
      'a rib narrower than a dot',
      setDensity(setLensPitch(newJob(), 25.4 / 200), { acrossDpi: 150 }),
      'printer',
    ],
    [
      'a rib wider than its circle',
      { ...newJob(), lens: { ...newJob().lens, radiusMm: 0.2 } },
      'lens.radiusMm',
    ],
  ])('refuses %s at its field', (_what, job, field) => {
    expect(faultOf(job)?.field).toBe(field);
    expect(faultOf(job)?.message).toMatch(/must|whole number/);
  });

  it('never lets a sheet past the 2^31 − 1 dots a side of PNG (W3C PNG, 11.2.1)', () => {
    const largest: Job = {
      ...newJob(),
      print: { widthMm: 5000, heightMm: 20000, viewingDistanceMm: 400 },
      printer: { carriageDpi: 10000, feedDpi: 10000 },
    };
    expect(faultOf(largest)).toBeUndefined();
    const { widthDots, heightDots } = sheetSpecOf(largest);
    expect(Math.max(widthDots, heightDots)).toBeLessThan(2 ** 31 - 1);
  });
});

describe('edits', () => {
  it('let a proved pitch go with the lens, the way round and the dots it was read for', () => {
    expect(setLensPitch(proved(), 0.5).provedPitch).toBeUndefined();
    expect(setRibs(proved(), 'lying').provedPitch).toBeUndefined();
    expect(setDensity(proved(), { acrossDpi: 1440 }).provedPitch).toBeUndefined();
  });

  it('keep it otherwise', () => {
    expect(setLensPitch(proved(), newJob().lens.pitchMm).provedPitch).toBeDefined();
    expect(setRibs(proved(), 'upright').provedPitch).toBeDefined();
    expect(setDensity(proved(), { alongDpi: 1440 }).provedPitch).toBeDefined();
    expect(setViewSlots(proved(), 10).provedPitch).toBeDefined();
  });

  it('let slots filled by hand go with their number', () => {
    expect(setViewSlots(proved(), 10).slotsByHand).toBeUndefined();
    expect(setViewSlots(proved(), 12).slotsByHand).toEqual(['a', 'b']);
  });
});

describe('the way back from disk', () => {
  it('is the same job', () => {
    const stored: unknown = structuredClone(proved());
    expect(restoreJob(stored)).toEqual({ ok: true, job: proved() });
  });

  it.each<[string, unknown, RegExp]>([
    ['nothing', null, /does not hold a job/],
    ['a list', [], /does not hold a job/],
    ['no version', { name: 'x' }, /which version/],
    ['a newer version', { ...newJob(), version: 99 }, /newer studio.*99/],
    ['a lost field', { ...newJob(), lens: undefined }, /^lens/],
    ['a spoiled number', { ...newJob(), viewSlots: 'twelve' }, /^viewSlots: .*number/],
  ])('refuses %s and says what is wrong', (_what, stored, why) => {
    const restored = restoreJob(stored);
    expect(restored.ok ? 'it was read' : restored.reason).toMatch(why);
  });
});
