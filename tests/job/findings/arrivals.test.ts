/** Frames that arrived: what is missing, copied, out of order, of another size or brightness. */
import { expect, test } from 'vitest';
import type { Arrived } from '../../../src/core/frames/expected.ts';
import { arrivalFindings } from '../../../src/job/findings/arrivals.ts';
import type { Frame, Job } from '../../../src/job/schema/job.ts';
import { newJob } from '../../../src/job/schema/job.ts';

const pose = (number: number) => `pose_${String(number).padStart(2, '0')}.png`;
const arrived = (number: number, change: Partial<Arrived> = {}): Arrived => ({
  name: pose(number),
  widthPx: 1200,
  heightPx: 1500,
  meanLight: 0.3,
  fingerprint: `f${number}`,
  ...change,
});
const frame = (one: Arrived): Frame => ({
  id: one.name,
  byteLength: 1,
  kind: 'PNG',
  sceneLinear: false,
  ...one,
});
const job = (frames: readonly Arrived[]): Job => ({ ...newJob(), frames: frames.map(frame) });
const idsOf = (of: Job) => arrivalFindings(of).map(({ id }) => id);

const frames = [
  arrived(1),
  arrived(2, { widthPx: 600, heightPx: 750 }),
  arrived(4),
  arrived(3),
  arrived(6, { fingerprint: 'f1' }),
  arrived(7, { meanLight: 0.1 }),
  arrived(8),
  arrived(9),
];

test('each has its finding, and what can be mended is mended by its action', () => {
  expect(idsOf(job(frames)).sort()).toEqual([
    'frames-brightness',
    'frames-duplicated',
    'frames-missing',
    'frames-out-of-order',
  ]);
  let mended = job(frames);
  for (const { action } of arrivalFindings(mended))
    if (action !== undefined && 'edit' in action) mended = action.edit(mended);
  expect(mended.frames.map(({ name }) => name)).toEqual([1, 2, 3, 4, 7, 8, 9].map(pose));
  expect(idsOf(mended)).not.toContain('frames-duplicated');
  expect(idsOf(mended)).not.toContain('frames-out-of-order');
});

test('a sound sequence, either way round, has none', () => {
  const sound = [1, 2, 3, 4, 5, 6].map((number) => arrived(number));
  expect(idsOf(job(sound))).toEqual([]);
  expect(idsOf(job([...sound].reverse()))).toEqual([]);
  expect(idsOf(job(sound.map(({ fingerprint: _none, ...rest }) => rest)))).toEqual([]);
});
