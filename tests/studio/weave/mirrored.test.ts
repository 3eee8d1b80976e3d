/** What files mirrored for film are called and say, what goes out of date with it, and which targets are mirrored. */
import { expect, test } from 'vitest';
import { setGang } from '../../../src/job/facts/gang.ts';
import { setPage } from '../../../src/job/facts/page.ts';
import { setTiles } from '../../../src/job/facts/tiles.ts';
import type { Job } from '../../../src/job/schema/job.ts';
import { newJob } from '../../../src/job/schema/job.ts';
import { restoreJob } from '../../../src/job/schema/migrate.ts';
import { sheetFileName, sheetInfo } from '../../../src/studio/weave/sheet-info.ts';
import {
  changedParts,
  digestsOf,
  partsOf,
  wovenFrom,
} from '../../../src/studio/weave/woven-from.ts';

const at = new Date('2026-12-01');
const film = (job: Job = newJob()) => setPage(job, { mirrored: true });

test('a mirrored file says so in its name and its description; others say nothing of it', () => {
  expect(sheetFileName(film(), 'png')).toMatch(/ mirrored\.png$/);
  expect(sheetInfo(film(), at)).toMatchObject({
    mirrored: true,
    description: expect.stringMatching(/Mirrored left to right, for film/) as string,
  });
  expect(sheetFileName(newJob(), 'png')).not.toContain('mirrored');
  expect(sheetInfo(newJob(), at).description).not.toMatch(/mirrored/i);
  expect(sheetInfo(newJob(), at)).not.toHaveProperty('mirrored');
});

test('it is kept with the job, without a page too, and is nothing but on or left out', () => {
  const restored = restoreJob(JSON.parse(JSON.stringify(film())));
  expect(restored).toEqual({ ok: true, job: film() });
  expect(film().page?.on).toBe(false);
  const odd = { ...film(), page: { ...film().page, mirrored: 'yes' } };
  expect(restoreJob(odd).ok).toBe(false);
});

const changed = (kind: keyof typeof partsOf, before: Job, now: Job) =>
  changedParts(
    digestsOf(partsOf[kind](before, undefined)),
    digestsOf(partsOf[kind](now, undefined)),
  );

test('what was woven from the other side is out of date, with the reason', () => {
  expect(wovenFrom(film(), undefined)).not.toBe(wovenFrom(newJob(), undefined));
  for (const kind of ['sheet', 'slice', 'tiles', 'several'] as const)
    expect(changed(kind, newJob(), film())).toEqual(['the print side']);
});

test.each([
  ['tiles', setTiles(newJob(), { on: true })],
  ['several', setGang(newJob(), { on: true })],
] as const)('%s are out of date once something else is ticked, without a page too', (kind, job) => {
  const without = setPage(job, { rails: false });
  expect(changed(kind, job, without)).toEqual(['what is printed around the picture']);
  expect(wovenFrom(without, undefined)).not.toBe(wovenFrom(job, undefined));
  // A page that is kept but changes nothing leaves it as it was.
  expect(wovenFrom(setPage(job, { on: false }), undefined)).toBe(wovenFrom(job, undefined));
});
