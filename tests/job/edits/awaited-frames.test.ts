/** A copy of a demo that has no frames yet says where they are to come from, until it has had some. */
import { expect, test } from 'vitest';
import { ownCopyOf } from '../../../src/job/edits/begin.ts';
import { addFrames, removeFrames } from '../../../src/job/edits/frames.ts';
import type { Frame, Job } from '../../../src/job/schema/job.ts';
import { newJob } from '../../../src/job/schema/job.ts';

const frame: Frame = {
  id: 'f1',
  name: 'kingfisher_01.png',
  byteLength: 100,
  widthPx: 60,
  heightPx: 80,
  kind: 'png',
  sceneLinear: false,
  meanLight: 0.4,
};
const demo: Job = { ...newJob(), name: 'The dive', demo: 'kingfisher' };

test('begun before the frames came', () => {
  const copy = ownCopyOf(demo);
  expect(copy).toMatchObject({ name: 'My copy of The dive', framesOf: 'kingfisher' });
  const filled = addFrames(copy, [frame]);
  expect(filled.framesOf).toBeUndefined();
  // Emptied by the person: nothing comes back by itself.
  expect(removeFrames(filled, new Set(['f1'])).framesOf).toBeUndefined();
});

test('begun with all frames there: nothing to wait for', () => {
  expect('framesOf' in ownCopyOf({ ...demo, frames: [frame] })).toBe(false);
});
