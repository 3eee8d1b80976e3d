/** Pictures that several jobs have: none is removed with one of them while another names it. */
import 'fake-indexeddb/auto';
import { IDBFactory } from 'fake-indexeddb';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { createFrameStore } from '../../../src/files/frame-store.ts';
import { addGoodTrial } from '../../../src/job/facts/trials.ts';
import type { Job } from '../../../src/job/schema/job.ts';
import { newJob } from '../../../src/job/schema/job.ts';
import { endListed } from '../../../src/studio/keep/job-list.ts';
import type { Studio } from '../../../src/studio/studio.ts';
import { lockManager } from '../../files/locks.ts';
import { makeStudio } from '../support.ts';

/** A busy machine is slow, not wrong. */
const eventually = (check: () => unknown) => vi.waitFor(check, { timeout: 10_000 });

/** Tabs share the disk and the locks. */
const tabs: Studio[] = [];
const openTab = (): Studio => {
  const tab = makeStudio({ frames: createFrameStore() });
  tabs.push(tab);
  return tab;
};

let studio: Studio;
beforeEach(() => {
  vi.stubGlobal('navigator', { locks: lockManager() });
  vi.stubGlobal('indexedDB', new IDBFactory());
  studio = openTab();
});
afterEach(async () => {
  for (const tab of tabs.splice(0)) await tab.disk.jobs.close();
  vi.unstubAllGlobals();
});

const frame = (id: string): Job['frames'][number] => ({
  id,
  name: `${id}.png`,
  byteLength: 7,
  widthPx: 10,
  heightPx: 10,
  kind: 'PNG',
  sceneLinear: false,
  meanLight: 0.5,
});
const picture = new Blob(['picture']);
const small = new Blob(['small']);
const jobWith = (name: string, ...ids: string[]): Job => ({
  ...newJob(),
  name,
  frames: ids.map(frame),
});
const entryOf = async (id: string) => {
  const listing = [...(await studio.disk.jobs.listJobs()), ...(await studio.disk.jobs.listBin())];
  const found = listing.find((one) => one.id === id);
  if (found === undefined) throw new Error(`no job ${id}`);
  return found;
};
/** What a job that is opened after a reload lacks, thumbnails as well. */
const lacking = async (ids: readonly string[]) => {
  const later = createFrameStore();
  const gone = await later.missing(ids);
  for (const id of ids) if ((await later.openThumbnail(id)) === undefined) gone.push(`${id} small`);
  return gone;
};
const keep = (...ids: string[]) =>
  Promise.all(ids.map((id) => studio.disk.frames.keep(id, id, picture, small)));

describe('a job and its copy', () => {
  /** A job of two frames and the photo of a trial, and its copy, where one frame was removed since. */
  const both = async () => {
    await keep('one', 'two', 'photo');
    const job = addGoodTrial(jobWith('Gull', 'one', 'two'), {
      id: 'trial',
      on: '2026-11-25',
      photoId: 'photo',
    });
    const first = await studio.disk.jobs.createJob(job);
    return { first, copy: (await studio.disk.jobs.copyJob(first)) ?? '' };
  };

  test.each(['first', 'copy'] as const)(
    'keep their pictures when the %s is ended',
    async (which) => {
      const ids = await both();
      const other = which === 'first' ? ids.copy : ids.first;
      await endListed(studio, await entryOf(ids[which]));
      expect((await studio.disk.jobs.loadJobById(other)).kind).toBe('job');
      expect(await lacking(['one', 'two', 'photo'])).toEqual([]);
      // With the last of them they go.
      await endListed(studio, await entryOf(other));
      expect(await lacking(['one'])).toEqual(['one', 'one small']);
    },
  );

  test('keep them when one is still being copied from a job that another tab ends', async () => {
    await keep('shared');
    const first = await studio.disk.jobs.createJob(jobWith('Gull', 'shared'));
    const entry = await entryOf(first);
    // It has read the job, and is slow to write the copy.
    const copying = openTab().disk.jobs.copyJob(first);
    const ending = endListed(studio, entry);
    const [copy] = await Promise.all([copying, ending]);
    expect(copy).toBeDefined();
    expect(await lacking(['shared'])).toEqual([]);
  });

  test('keep what the way back in the page needs, when that is longer than what is kept of it', async () => {
    await keep('early');
    const first = await studio.disk.jobs.createJob(jobWith('Gull', 'early'));
    // Opened from it, then left without the frame by a step that only undo knows of.
    studio.document.getState().open(jobWith('Gull (copy)', 'early'), { jobId: 'copy' });
    studio.document.getState().change('removing a frame', (job) => ({ ...job, frames: [] }));
    await endListed(studio, await entryOf(first));
    expect(await lacking(['early'])).toEqual([]);
  });
});

test('a job that another tab opens is not ended, and one that is being ended cannot be opened', async () => {
  await keep('opened');
  const id = await studio.disk.jobs.createJob(jobWith('Gull', 'opened'));
  const entry = await entryOf(id);
  const other = openTab().keeper.hold;
  await other.hold(id);
  await expect(endListed(studio, entry)).rejects.toThrow('open in another tab');
  expect(await lacking(['opened'])).toEqual([]);
  other.release();
  await eventually(async () => expect(await other.isFree(id)).toBe(true));
  const ending = endListed(studio, entry);
  expect(await other.hold(id)).toBe('elsewhere');
  await ending;
});
