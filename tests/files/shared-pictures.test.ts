/** Pictures that several jobs or tabs have: none is removed while a job names it, or is about to. */
import 'fake-indexeddb/auto';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { endListed } from '../../src/studio/keep/job-list.ts';
import { createFrameStore, frameStore } from '../../src/files/frame-store.ts';
import { createJobHold } from '../../src/files/job-hold.ts';
import { createJobStore, jobStore } from '../../src/files/job-store.ts';
import { createPresence } from '../../src/files/picture-locks.ts';
import { openMemoryShelf } from '../../src/files/shelves.ts';
import type { Job } from '../../src/job/schema/job.ts';
import { newJob } from '../../src/job/schema/job.ts';
import { addGoodTrial } from '../../src/job/facts/trials.ts';
import { documentStore } from '../../src/state/document.ts';
import { lockManager } from './locks.ts';

/** A busy machine is slow, not wrong. */
const eventually = (check: () => unknown) => vi.waitFor(check, { timeout: 10_000 });

beforeEach(() => {
  vi.stubGlobal('navigator', { locks: lockManager() });
});
afterEach(async () => {
  vi.restoreAllMocks();
  await jobStore.close();
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
  const listing = [...(await jobStore.listJobs()), ...(await jobStore.listBin())];
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
  Promise.all(ids.map((id) => frameStore.keep(id, id, picture, small)));

describe('a job and its copy', () => {
  /** A job of two frames and the photo of a trial, and its copy, where one frame was removed since. */
  const both = async () => {
    await keep('one', 'two', 'photo');
    const job = addGoodTrial(jobWith('Gull', 'one', 'two'), {
      id: 'trial',
      on: '2026-11-25',
      photoId: 'photo',
    });
    const first = await jobStore.createJob(job);
    return { first, copy: (await jobStore.copyJob(first)) ?? '' };
  };

  test.each(['first', 'copy'] as const)(
    'keep their pictures when the %s is ended',
    async (which) => {
      const ids = await both();
      const other = which === 'first' ? ids.copy : ids.first;
      await endListed(await entryOf(ids[which]));
      expect((await jobStore.loadJobById(other)).kind).toBe('job');
      expect(await lacking(['one', 'two', 'photo'])).toEqual([]);
      // With the last of them they go.
      await endListed(await entryOf(other));
      expect(await lacking(['one'])).toEqual(['one', 'one small']);
    },
  );

  test('keep them when one is still being copied from a job that another tab ends', async () => {
    await keep('shared');
    const first = await jobStore.createJob(jobWith('Gull', 'shared'));
    const entry = await entryOf(first);
    const elsewhere = createJobStore();
    // It has read the job, and is slow to write the copy.
    const copying = elsewhere.copyJob(first);
    const ending = endListed(entry);
    const [copy] = await Promise.all([copying, ending]);
    await elsewhere.close();
    expect(copy).toBeDefined();
    expect(await lacking(['shared'])).toEqual([]);
  });

  test('keep what the way back in the page needs, when that is longer than what is kept of it', async () => {
    await keep('early');
    const first = await jobStore.createJob(jobWith('Gull', 'early'));
    // Opened from it, then left without the frame by a step that only undo knows of.
    documentStore.getState().open(jobWith('Gull (copy)', 'early'), { jobId: 'copy' });
    documentStore.getState().change('removing a frame', (job) => ({ ...job, frames: [] }));
    await endListed(await entryOf(first));
    expect(await lacking(['early'])).toEqual([]);
    documentStore.getState().open(newJob(), { jobId: '' });
  });
});

test('a job that another tab opens is not ended, and one that is being ended cannot be opened', async () => {
  await keep('opened');
  const id = await jobStore.createJob(jobWith('Gull', 'opened'));
  const entry = await entryOf(id);
  const other = createJobHold({
    beforeHandingOn: async () => undefined,
    onLost: () => undefined,
    onKeptElsewhere: () => undefined,
  });
  await other.hold(id);
  await expect(endListed(entry)).rejects.toThrow('open in another tab');
  expect(await lacking(['opened'])).toEqual([]);
  other.release();
  await eventually(async () => expect(await other.isFree(id)).toBe(true));
  const ending = endListed(entry);
  expect(await other.hold(id)).toBe('elsewhere');
  await ending;
});

describe('sweeping while another tab', () => {
  /** The pages share the disk and the locks. */
  const disk = () => {
    const shelf = openMemoryShelf();
    return {
      shelf,
      page: () => createFrameStore(() => Promise.resolve(shelf), createPresence()),
    };
  };

  test('opens and adds a frame leaves that frame', async () => {
    const { shelf, page } = disk();
    await shelf.put('leftover', picture);
    let goOn: (() => void) | undefined;
    const sweeping = page().sweep(async () => {
      await new Promise<void>((resolve) => (goOn = resolve));
      return [];
    });
    await eventually(() => expect(goOn).toBeDefined());
    const other = page();
    const swept = other.sweep(async () => []);
    const added = other.keep('new', 'new.png', picture, small);
    // Seen at once, though it is not on the disk yet.
    expect(await (await other.open('new')).text()).toBe('picture');
    // Time enough to be written, if it were not held back.
    await new Promise((resolve) => setTimeout(resolve, 20));
    goOn?.();
    await Promise.all([sweeping, swept, added]);
    expect((await shelf.keys()).sort()).toEqual(['new', 'new.thumbnail']);
  });

  test('is open leaves everything', async () => {
    const { shelf, page } = disk();
    await page().keep('theirs', 'theirs.png', picture, small);
    await page().sweep(async () => []);
    expect(await shelf.keys()).toContain('theirs');
  });

  test('had been open knows what that one kept', async () => {
    const { shelf, page } = disk();
    const kept = new Set<string>();
    // Another page keeps a frame and a job that names it just before the sweep may begin.
    const sweeping = page().sweep(async () => kept);
    await shelf.put('theirs', picture);
    kept.add('theirs');
    await sweeping;
    expect(await shelf.keys()).toEqual(['theirs']);
  });

  test('cannot be told of, for want of locks, is not done', async () => {
    vi.stubGlobal('navigator', {});
    const { shelf, page } = disk();
    await page().keep('theirs', 'theirs.png', picture, small);
    await page().sweep(async () => []);
    expect(await shelf.keys()).toContain('theirs');
  });
});
