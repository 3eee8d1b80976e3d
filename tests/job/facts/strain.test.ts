/** Who a job could hurt: eyes by whichever depth is known, photosensitive people by whatever lies in the slots. */
import { describe, expect, test } from 'vitest';
import { mayFlash } from '../../../src/job/facts/flash.ts';
import { strainOf } from '../../../src/job/facts/strain.ts';
import { setRibs } from '../../../src/job/edits/consequences.ts';
import type { Frame, Job } from '../../../src/job/schema/job.ts';
import { newJob } from '../../../src/job/schema/job.ts';

const degrees = (job: Job) => ((strainOf(job, undefined)?.rad ?? 0) * 180) / Math.PI;

describe('eye strain', () => {
  // By hand at 400 mm, eyes 63 mm apart: 2 atan(31.5 / 340) − 2 atan(31.5 / 400) = 1.58°.
  const near = { ...newJob(), rig: { near: 60 } };

  test('goes by a thing on the ruler', () => {
    const job = { ...newJob(), depthMarks: [{ name: 'Lighthouse', zMm: -60 }] };
    expect(degrees(job)).toBeCloseTo(-1.58, 2);
    expect(strainOf(job, undefined)?.of).toBe('Lighthouse');
    expect(strainOf(setRibs(job, 'lying'), undefined)).toBeUndefined();
  });

  test('goes by the rig’s nearest and farthest, which for the viewer’s own cameras comes to the same', () => {
    expect(degrees(near)).toBeCloseTo(-1.58, 2);
    expect(degrees({ ...newJob(), rig: { far: 60 } })).toBeGreaterThan(1);
    expect(strainOf({ ...newJob(), rig: { near: 20, far: 20 } }, undefined)).toBeUndefined();
  });

  test('goes by the measured parallax, whatever it was rendered from', () => {
    // 9 ribs × 12 views × g′ 0.5 / 400 mm is 0.13 of the eyes’ distance: 1.2° at 400 mm.
    const frames = Array.from({ length: 12 }, (_, i) => ({ id: `f${i}` }) as Frame);
    const spread = { front: -9, behind: 0.2 } as NonNullable<
      Parameters<typeof strainOf>[1]
    >['spread'];
    const measured = { spread, steps: [], levels: [], order: undefined };
    const found = strainOf({ ...newJob(), frames }, measured);
    expect(found?.of).toBe('The nearest part of the frames');
    expect(found?.rad).toBeLessThan(-Math.PI / 180);
  });
});

describe('flashing', () => {
  const frame = (id: string, meanLight: number) =>
    ({ id, name: id, meanLight, sceneLinear: false, widthPx: 10, heightPx: 10 }) as Frame;
  const lit = (...lights: number[]): Job => ({
    ...newJob(),
    frames: lights.map((light, i) => frame(`f${i}`, light)),
  });

  test('is told of light and dark frames in any order, of crossfades and of slots filled by hand', () => {
    expect(mayFlash(lit(0.4, 0.42, 0.4))).toBe(false);
    expect(mayFlash(lit(0.1, 0.5))).toBe(true);
    const even = lit(0.4, 0.4);
    expect(mayFlash({ ...even, slotsByHand: ['f0'] })).toBe(true);
    const recipe: Job['recipe'] = { kind: 'change', second: ['f1'], crossAt: 0.5, crossWidth: 0.5 };
    expect(mayFlash({ ...even, recipe })).toBe(true);
  });
});
