/** What the plan's findings say, and that carrying out a remedy makes its finding go. */
import { describe, expect, test } from 'vitest';
import type { Finding } from '../../../src/job/findings/finding.ts';
import type { Job } from '../../../src/job/schema/job.ts';
import { newJob } from '../../../src/job/schema/job.ts';
import { planFindings } from '../../../src/job/findings/plan.ts';

const find = (job: Job, id: string): Finding | undefined =>
  planFindings(job).find((finding) => finding.id === id);

const carriedOut = (job: Job, id: string): Job => {
  const action = find(job, id)?.action;
  if (action === undefined || !('edit' in action)) throw new Error(`${id} has no remedy to apply`);
  return action.edit(job);
};

describe('findings of the plan', () => {
  test('the job a first visit opens with has no contradiction and no depth to complain of', () => {
    for (const id of ['lens-too-thin', 'radius-needed', 'off-focus', 'angle-contradicted'])
      expect(find(newJob(), id)).toBeUndefined();
    for (const id of ['scene-too-deep', 'eye-comfort', 'print-too-wide', 'mark-behind-eye'])
      expect(find(newJob(), id)).toBeUndefined();
  });

  test('a radius that focuses far from the print is a contradiction, until it is taken back', () => {
    const job = newJob();
    // Focus at n R / (n − 1): 0.25 mm focuses its crest at 0.69 mm, 18 % short of 0.84.
    const wrong = { ...job, lens: { ...job.lens, radiusMm: 0.25 } };
    expect(find(wrong, 'off-focus')?.figure).toMatch(/too thick/);
    expect(find(carriedOut(wrong, 'off-focus'), 'off-focus')).toBeUndefined();
  });

  test('a supplier’s angle near the cone is believed, one far from it is not', () => {
    const job = newJob();
    // The cone of the usual job by the bench’s own trace is 46.7° (by t / n, 43.1°).
    const told = (supplierAngleDeg: number) => ({
      ...job,
      lens: { ...job.lens, supplierAngleDeg },
    });
    expect(find(told(43), 'angle-contradicted')).toBeUndefined();
    expect(find(told(20), 'angle-contradicted')?.figure).toContain('46.7°');
  });

  test('a scene deeper than the budget is found, and the gain it offers fits', () => {
    const deep = { ...newJob(), depthGain: 1, depthMarks: [{ name: 'Lighthouse', zMm: 300 }] };
    // |s| / p = γ D z / (N g' (D + z)) = 400 × 300 / (12 × 0.49827 × 700) = 28.7 (relation 6);
    // g' by the bench of tests/golden, which traces on its own (tests/core/lens/traced.test.ts).
    expect(find(deep, 'scene-too-deep')?.figure).toContain('Lighthouse 300 mm behind moves 28.7');
    const mended = carriedOut(deep, 'scene-too-deep');
    expect(mended.depthGain).toBeCloseTo(1 / 28.67, 3);
    expect(find(mended, 'scene-too-deep')).toBeUndefined();
  });

  test('disparity beyond a degree is a caution with the advice to stop', () => {
    // Limit: Lambooij et al., JIST 53(3) (2009). At 500 mm it lies 80.7 mm behind the print.
    const at = (zMm: number): Job => {
      const job = newJob();
      return {
        ...job,
        print: { ...job.print, viewingDistanceMm: 500 },
        depthGain: 1,
        eyesApartMm: 63,
        depthMarks: [{ name: 'Palm', zMm }],
      };
    };
    expect(find(at(80), 'eye-comfort')).toBeUndefined();
    expect(find(at(81.5), 'eye-comfort')?.remedy).toContain('Stop looking if it hurts');
    expect(find({ ...at(81.5), ribs: 'lying' }, 'eye-comfort')).toBeUndefined();
  });

  test('a print wider than the pitch is known for says how wide is safe', () => {
    const exactness = { budgetZones: 0.25, pitchUnsureLpi: 0.1, stretchShare: 0.001 };
    // W = τ / ΔLPI = 2.5 in = 63.5 mm (relation 7).
    expect(find({ ...newJob(), exactness }, 'print-too-wide')?.figure).toContain(
      'known well enough for 64 mm',
    );
    const narrow = { ...newJob(), exactness, print: { ...newJob().print, widthMm: 60 } };
    expect(find(narrow, 'print-too-wide')).toBeUndefined();
  });

  test('more slots than an eye tells apart is said, and the remedy takes it away', () => {
    const depth: Job = {
      ...newJob(),
      printer: { carriageDpi: 2400, feedDpi: 2400 },
      viewSlots: 36,
    };
    const crowded: Job = { ...depth, recipe: { kind: 'animation' } };
    expect(find(crowded, 'few-told-apart')).toBeDefined();
    expect(find(carriedOut(crowded, 'few-told-apart'), 'few-told-apart')).toBeUndefined();
    // Depth keeps its views: nothing to press.
    expect(find(depth, 'few-told-apart')?.remedy).toMatch(/^Keep them for depth\./);
    expect(find(depth, 'few-told-apart')?.action).toBeUndefined();
    const views = (viewSlots: number) => find({ ...depth, viewSlots }, 'few-told-apart');
    expect(views(200)).toMatchObject({ severity: 'note', title: views(80)?.title });
  });

  test('a thing behind the eye is named', () => {
    const job = { ...newJob(), depthMarks: [{ name: 'Gull', zMm: -400 }] };
    expect(find(job, 'mark-behind-eye')?.title).toBe('Gull stands behind the eye');
  });
});
