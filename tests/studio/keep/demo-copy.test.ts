// @vitest-environment jsdom
/** A demo print is there to be looked at: a change makes a copy of the person's own, and the demo stays whole. */
import 'fake-indexeddb/auto';
import { IDBFactory } from 'fake-indexeddb';
import { beforeEach, describe, expect, test, vi } from 'vitest';
import { guessable, newJob } from '../../../src/job/schema/job.ts';
import type { Job } from '../../../src/job/schema/job.ts';
import type { Studio } from '../../../src/studio/studio.ts';
import { makeStudio } from '../support.ts';

beforeEach(() => {
  globalThis.indexedDB = new IDBFactory();
});

const demo: Job = { ...newJob(), name: 'The pond', demo: 'pond' };

/** With the demo kept in the list, and open. */
const openDemo = async (): Promise<{ studio: Studio; keptId: string }> => {
  const studio = makeStudio();
  const keptId = await studio.disk.jobs.createJob(demo);
  await studio.keeper.open(keptId);
  studio.keeper.start();
  return { studio, keptId };
};

const wider = (job: Job): Job => ({ ...job, print: { ...job.print, widthMm: 300 } });
const namesKept = async ({ disk }: Studio) =>
  (await disk.jobs.listJobs()).map(({ name }) => name).sort();

describe('a change of a demo', () => {
  test('is made to a copy, kept as it began and as it was changed; the demo stays', async () => {
    const { studio, keptId } = await openDemo();
    const { document, keeper, disk } = studio;
    expect(studio.change('print width', wider)).toBeUndefined();
    const { job, jobId } = document.getState();
    expect(job).toEqual({
      ...wider(newJob()),
      name: 'My copy of The pond',
      copyOf: 'pond',
      framesOf: 'pond',
      guessed: guessable.filter((part) => part !== 'printWidth'),
    });
    await keeper.flush();
    expect(await namesKept(studio)).toEqual(['My copy of The pond', 'The pond']);
    expect(await disk.jobs.loadJobById(keptId)).toMatchObject({ kind: 'job', job: demo });
    expect(await disk.jobs.loadJobById(jobId)).toMatchObject({ kind: 'job', job });
    expect((await disk.jobs.loadPast(jobId)).map(({ before }) => before.print.widthMm)).toEqual([
      203.2,
    ]);
  });

  test('undone leaves the copy as it began', async () => {
    const { studio } = await openDemo();
    studio.change('print width', wider);
    studio.document.getState().undo();
    expect(studio.document.getState().job).toEqual({
      ...newJob(),
      name: 'My copy of The pond',
      copyOf: 'pond',
      framesOf: 'pond',
      guessed: [...guessable],
    });
  });

  test('that is refused, or changes nothing, makes no copy', async () => {
    const { studio } = await openDemo();
    const tooWide = (job: Job): Job => ({ ...job, print: { ...job.print, widthMm: 1e9 } });
    expect(studio.change('print width', tooWide)).toMatch(/Print width/);
    expect(studio.change('nothing', (job) => job)).toBeUndefined();
    expect(studio.document.getState().job).toEqual(demo);
    await studio.keeper.flush();
    expect(await namesKept(studio)).toEqual(['The pond']);
  });

  test('twice makes two copies, told apart by a number', async () => {
    const { studio, keptId } = await openDemo();
    studio.change('print width', wider);
    await studio.keeper.open(keptId);
    expect(studio.document.getState().job).toEqual(demo);
    studio.change('print width', wider);
    await vi.waitFor(() =>
      expect(studio.document.getState().job.name).toBe('My copy of The pond 2'),
    );
    await studio.keeper.flush();
    expect(await namesKept(studio)).toEqual([
      'My copy of The pond',
      'My copy of The pond 2',
      'The pond',
    ]);
    studio.document.getState().undo();
    expect(studio.document.getState().job.name).toBe('My copy of The pond 2');
  });
});

test('two tabs may look at one demo, and each change it into a copy', async () => {
  const { studio, keptId } = await openDemo();
  const other = makeStudio();
  await other.keeper.open(keptId);
  expect(other.document.getState().lookOnly).toBeUndefined();
  other.keeper.start();
  studio.change('print width', wider);
  other.change('view slots', (job) => ({ ...job, viewSlots: 9 }));
  await Promise.all([studio.keeper.flush(), other.keeper.flush()]);
  expect(await other.disk.jobs.loadJobById(keptId)).toMatchObject({ job: demo });
  expect(await namesKept(studio)).toHaveLength(3);
});

test('a new job lies on the lens of the person’s last one, never on a demo’s', async () => {
  const { studio } = await openDemo();
  await studio.keeper.begin();
  expect(studio.document.getState().job.lens).toEqual(newJob().lens);
  studio.change('lens', (job) => ({ ...job, lens: { ...job.lens, thicknessMm: 0.5 } }));
  await studio.keeper.begin();
  expect(studio.document.getState().job.lens.thicknessMm).toBe(0.5);
});
