/** Bleed with and without picture in it. */
import { expect, test } from 'vitest';
import { bleedFinding } from '../../../src/job/findings/bleed.ts';
import { setPage } from '../../../src/job/facts/page.ts';
import { slotPicturesOf } from '../../../src/job/facts/slot-pictures.ts';
import type { Job } from '../../../src/job/schema/job.ts';
import { newJob } from '../../../src/job/schema/job.ts';

const frame = (widthPx: number, heightPx: number): Job['frames'][number] => ({
  id: 'kingfisher',
  name: 'kingfisher.png',
  byteLength: 1,
  widthPx,
  heightPx,
  kind: 'PNG',
  sceneLinear: false,
  meanLight: 0.5,
});

/** A print of 200 × 100 mm with 2 mm of bleed. */
const jobOf = (widthPx: number, heightPx: number, change: Partial<Job> = {}): Job =>
  setPage(
    {
      ...newJob(),
      print: { widthMm: 200, heightMm: 100, viewingDistanceMm: 400 },
      frames: [frame(widthPx, heightPx)],
      ...change,
    },
    { on: true, bleedMm: 2 },
  );

const areaOf = (job: Job) => slotPicturesOf(job).pictures[0]!.area;

test('a frame of the print’s shape is mirrored into the bleed on all sides', () => {
  const area = areaOf(jobOf(1000, 500));
  expect(area.mirror).toEqual({ left: true, top: true, right: true, bottom: true });
  // 2 mm of 200 mm are 10 of 1000 pixels, to the whole printed dot.
  expect(area.left).toBeCloseTo(-10, 0);
  expect(bleedFinding(jobOf(1000, 500))).toBeUndefined();
});

test('beside a frame that is narrower than the print the paper stays white, and so does its bleed', () => {
  const fit = { placement: { mode: 'fit' as const, shiftX: 0, shiftY: 0 } };
  expect(areaOf(jobOf(800, 500, fit)).mirror).toEqual({
    left: false,
    top: true,
    right: false,
    bottom: true,
  });
});

test('white by choice is told where frames end at the trim, and mended in one press', () => {
  const job = setPage(jobOf(1000, 500), { whiteBleed: true });
  expect(areaOf(job).mirror).toBeUndefined();
  const finding = bleedFinding(job);
  expect(finding?.id).toBe('bleed-white');
  const { action } = finding!;
  if (action === undefined || !('edit' in action)) throw new Error('no edit');
  expect(bleedFinding(action.edit(job))).toBeUndefined();
  // A frame with room above and below has picture for the bleed there, but not at its sides.
  expect(bleedFinding(setPage(jobOf(1000, 700), { whiteBleed: true }))?.id).toBe('bleed-white');
  expect(
    bleedFinding({
      ...setPage(jobOf(1000, 700), { whiteBleed: true }),
      page: { ...job.page!, on: false },
    }),
  ).toBeUndefined();
});
