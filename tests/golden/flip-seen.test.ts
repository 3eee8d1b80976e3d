/**
 * What the map of ghosts believes of a flip, against the lens bench, which shares nothing with the studio: the light of
 * each picture from beside every change, woven sheet and all.
 */
import { expect, test } from 'vitest';
import { slotsOf } from '../../src/job/facts/sheet.ts';
import { picturesSeen } from '../../src/job/facts/flip-seen.ts';
import { ZONE_MM, eyesOn, flipJob } from './flip-bench.ts';

test.each([
  ['upright', 0],
  ['upright', 1],
  ['lying', 0],
  ['lying', 2],
] as const)('ribs %s, %i guard slots: the shares of both pictures', (ribs, guards) => {
  const job = flipJob(ribs, undefined, guards);
  const see = eyesOn(job);
  const names = ['lamp lit', 'lamp out'];
  const shown = slotsOf(job).map(({ parts }) => names.indexOf(parts[0]?.frame ?? ''));
  const seen = picturesSeen(job);
  expect(seen.map(({ picture }) => picture)).toEqual([0, 1]);
  for (const { picture, from, to, eyes } of seen) {
    // Beside the one change in view: the last slot of the first picture, the first of the second.
    const slot = picture === 0 ? to - 1 : from;
    expect(eyes.map((eye) => eye.slot)).toEqual([slot]);
    const believed = names.map((_, which) =>
      (eyes[0]?.shares ?? []).reduce(
        (sum, share, at) => sum + (shown[at] === which ? share : 0),
        0,
      ),
    );
    const light = see(((slot + 0.5) / job.viewSlots - 0.5) * ZONE_MM);
    const both = light[0] + light[1];
    // Of 60 mm of ribs, some of which an eye that near sees aslant.
    light.forEach((share, which) =>
      expect(Math.abs(share - (believed[which] ?? 0)), `picture ${which + 1}`).toBeLessThan(0.03),
    );
    expect((light[picture] ?? 0) / both).toBeGreaterThan(0.9);
  }
});
