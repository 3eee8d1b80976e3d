// @vitest-environment jsdom
/** A demo is kept once all its frames are there; one that was kept without them is laid in anew. */
import 'fake-indexeddb/auto';
import { IDBFactory } from 'fake-indexeddb';
import { beforeEach, expect, test, vi } from 'vitest';
import { newJob } from '../../../src/job/schema/job.ts';
import { openDemo } from '../../../src/studio/frames/demos.ts';
import { restore } from '../../../src/studio/keep/first-job.ts';
import type { Studio } from '../../../src/studio/studio.ts';
import { makeStudio } from '../support.ts';

const takeIn = vi.hoisted(() => vi.fn());
vi.mock('../../../src/studio/frames/take-in.ts', () => ({ takeIn }));

const frame = (name: string) => ({
  id: name,
  name,
  byteLength: 1,
  widthPx: 8,
  heightPx: 10,
  kind: 'PNG' as const,
  sceneLinear: false,
  meanLight: 0.5,
});
/** Of the files that are handed in, so many become frames. */
const reads = (most: number) =>
  takeIn.mockImplementation((_studio: unknown, files: readonly { name: string }[]) =>
    Promise.resolve({ frames: files.slice(0, most).map(({ name }) => frame(name)) }),
  );

beforeEach(() => {
  globalThis.indexedDB = new IDBFactory();
  localStorage.clear();
  takeIn.mockReset();
  vi.stubGlobal('fetch', () => Promise.resolve(new Response('a picture')));
});

const keptDemos = async ({ disk }: Studio) =>
  (await disk.jobs.listJobs()).filter(({ demo }) => demo === 'glasshouse');
const laidIn = (studio: Studio) =>
  vi.waitFor(() => expect(studio.tasks.isRunning('demo')).toBe(false));

test('of which nothing can be read says so and is not kept', async () => {
  reads(0);
  const studio = makeStudio();
  await openDemo(studio, 'glasshouse');
  await laidIn(studio);
  expect(await keptDemos(studio)).toEqual([]);
  const [note] = studio.work.getState().arrivalNotes;
  expect(note?.message).toMatch(/^None of the demo’s frames/);
});

test('of which some cannot be read is shown as it came, and is not kept', async () => {
  reads(5);
  const studio = makeStudio();
  await openDemo(studio, 'glasshouse');
  await laidIn(studio);
  expect(studio.document.getState().job.frames).toHaveLength(5);
  expect(await keptDemos(studio)).toEqual([]);
});

test('that an earlier visit kept without frames is laid in anew, in its place', async () => {
  reads(Infinity);
  const before = makeStudio();
  await before.disk.jobs.createJob({ ...newJob(), name: 'The old glasshouse', demo: 'glasshouse' });
  const studio = makeStudio();
  await restore(studio, () => openDemo(studio, 'glasshouse'));
  await vi.waitFor(() => expect(studio.document.getState().job.frames.length).toBe(12));
  await laidIn(studio);
  expect(await keptDemos(studio)).toMatchObject([{ frameCount: 12 }]);
});
