/** A job's ghost wedge, ghost removal and lamp: what is woven, what a patch means, what removal costs. */
import { describe, expect, it } from 'vitest';
import * as v from 'valibot';
import { curveOfPatch, lampColour } from '../../../src/core/colour/lamp-target.ts';
import { evenSlots, leakOfPatch } from '../../../src/core/weave/ghost-wedge.ts';
import { findings } from '../../../src/job/findings/all.ts';
import {
  clippedShare,
  keepWedge,
  leftByTrim,
  reachOf,
  takePatch,
  trimOf,
  wedgePlanOf,
  withoutTrim,
} from '../../../src/job/facts/ghost.ts';
import type { Job } from '../../../src/job/schema/job.ts';
import { jobSchema, newJob } from '../../../src/job/schema/job.ts';

const flip = (viewSlots: number, pictures: string[]): Job => ({
  ...newJob(),
  viewSlots,
  recipe: { kind: 'flip', pictures, guardSlots: 0, guard: 'mean' },
});

const read = (patch: number): Job => {
  const job = keepWedge(newJob(), 0.3, '2026-11-25');
  if (job.ghostWedge === undefined) throw new Error('no wedge');
  return takePatch(job, job.ghostWedge, patch);
};

const work = { prepareFaults: new Map<string, string>(), arrivalNotes: [] };
const found = (job: Job, more: Partial<Parameters<typeof findings>[1]> = {}) =>
  findings(job, { ...work, ...more }).filter(({ id }) => id.startsWith('ghost'));

describe('the other picture', () => {
  it('is the next slot, or the next picture of a flip', () => {
    expect(reachOf(newJob())).toBe(1);
    expect(reachOf(flip(12, ['a', 'b']))).toBe(6);
    expect(reachOf(flip(12, ['a', 'b', 'c']))).toBe(4);
    expect(reachOf(flip(12, ['a', '']))).toBe(1);
  });

  it('stands by turns with the even one, which is in the middle', () => {
    expect(evenSlots(2, 1)).toEqual([true, false]);
    expect(evenSlots(6, 2)).toEqual([false, false, true, true, false, false]);
    expect(evenSlots(5, 1)).toEqual([true, false, true, false, true]);
  });
});

describe('the wedge', () => {
  it('is as wide as the print or the paper allows, and follows the slots', () => {
    const plan = wedgePlanOf({ ...newJob(), viewSlots: 8 }, 0.45);
    if (!plan.ok) throw new Error(plan.message);
    expect(plan.spec).toMatchObject({ viewSlots: 8, reachSlots: 1, strongest: 0.45 });
    expect(plan.patchMm).toBeCloseTo(120, 1);
  });

  it('says what to do where there is none', () => {
    const one = wedgePlanOf({ ...newJob(), viewSlots: 1 }, 0.3);
    expect(one.ok ? '' : one.message).toContain('2 or more View slots');
    const small = wedgePlanOf(
      { ...newJob(), pitchStrip: { paper: 'own', paperWidthMm: 100, paperHeightMm: 150 } },
      0.3,
    );
    expect(small.ok ? '' : small.message).toContain('larger paper');
  });

  it('gives a patch its leak, halves too, and tells by how much it may be out', () => {
    // Sixteen patches in even steps from 0: 0.3 / 15 = 0.02 a step.
    expect(leakOfPatch(0.3, 1)).toBe(0);
    expect(leakOfPatch(0.3, 16)).toBeCloseTo(0.3, 12);
    expect(read(6.5).ghostTrim).toMatchObject({ leak: 0.11, plusMinus: 0.01, contrast: 'lowered' });
    expect(v.safeParse(jobSchema, read(6.5)).success).toBe(true);
  });
});

describe('ghost removal', () => {
  it('lifts by its leak where contrast is lowered, by nothing where it is kept', () => {
    const job = read(11);
    expect(trimOf(job)).toEqual({ leak: 0.2, reachSlots: 1, lift: 0.2 });
    const kept: Job = { ...job, ghostTrim: { ...job.ghostTrim!, contrast: 'kept' } };
    expect(trimOf(kept)).toMatchObject({ lift: 0 });
    expect(trimOf(read(1))).toBeUndefined();
    expect(withoutTrim(job)).toEqual(keepWedge(newJob(), 0.3, '2026-11-25'));
  });

  it('costs what a white beside a white and a black beside a white come to', () => {
    // Seen by hand for c = 0.25: (D + c D') / (1 + c), D = (I − cJ) / (1 − c²), I, J lifted by c.
    const c = 0.25;
    const seen = (i: number, j: number) => {
      const lifted = (value: number) => c + (1 - c) * value;
      const [own, other] = [lifted(i), lifted(j)];
      const d = (own - c * other) / (1 - c * c);
      const beside = (other - c * own) / (1 - c * c);
      return (d + c * beside) / (1 + c);
    };
    const { white, black } = leftByTrim({ leak: c, contrast: 'lowered' });
    expect(white).toBeCloseTo(seen(1, 0), 12);
    expect(black).toBeCloseTo(seen(0, 1), 12);
    expect(leftByTrim({ leak: c, contrast: 'kept' }).black).toBe(0);
  });
});

describe('findings', () => {
  it('say when much is clipped, with its share, and lower the contrast at a press', () => {
    const job = read(11);
    const kept: Job = { ...job, ghostTrim: { ...job.ghostTrim!, contrast: 'kept' } };
    const clipped = [
      { low: 30, high: 10, samples: 1000 },
      { low: 0, high: 0, samples: 1000 },
    ];
    expect(clippedShare(clipped)).toEqual({ low: 0.015, high: 0.005, all: 0.02 });
    const [finding] = found(kept, { ghostClipped: clipped });
    expect(finding).toMatchObject({ id: 'ghost-clipped', figure: '2 % of all samples' });
    if (finding?.action === undefined || !('edit' in finding.action)) throw new Error('no action');
    expect(finding.action.edit(kept).ghostTrim?.contrast).toBe('lowered');
    expect(found(kept, { ghostClipped: [{ low: 1, high: 0, samples: 1000 }] })).toEqual([]);
    expect(found(job, { ghostClipped: clipped })).toEqual([]);
  });

  it('say when it was read for other slots', () => {
    expect(found({ ...read(4), viewSlots: 10 })[0]).toMatchObject({ id: 'ghost-setting' });
    expect(found(read(4))).toEqual([]);
  });
});

it('numbers the patches for a lamp along their lines, cool to warm, and leaves patch 3 as it is', () => {
  expect(curveOfPatch(3)).toEqual({ density: 1, warmth: 0 });
  expect(curveOfPatch(14)).toEqual({ density: 1.6, warmth: 1 });
  expect(curveOfPatch(26)).toBeUndefined();
  expect(curveOfPatch(2.5)).toBeUndefined();
  expect(lampColour([214, 170, 146], { density: 1, warmth: 0 })).toEqual([214, 170, 146]);
});
