/** A full disk, for each kept thing but frames: it is told by name, lives on in the page, and is kept once there is room. */
import 'fake-indexeddb/auto';
import { IDBFactory } from 'fake-indexeddb';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { createFrameStore } from '../../../src/files/frame-store.ts';
import { keepParallax, loadParallax } from '../../../src/files/parallax-store.ts';
import { loadReadings } from '../../../src/files/pitch-store.ts';
import { openShelfStore } from '../../../src/files/shelf-store.ts';
import { addGoodTrial } from '../../../src/job/facts/trials.ts';
import { newJob } from '../../../src/job/schema/job.ts';
import { addEntry, removeEntry } from '../../../src/materials/shelves.ts';
import { takePhoto } from '../../../src/studio/frames/trial-photo.ts';
import { recallShelves } from '../../../src/studio/keep/shelves.ts';
import type { Studio } from '../../../src/studio/studio.ts';
import { makeStudio } from '../support.ts';

/** What a worker would make of a picture. */
vi.mock('../../../src/calls/frames.ts', () => ({
  lookAt: async () => ({ done: true, value: { thumbnail: new Blob(['small']) } }),
}));

let studio: Studio;
const noRoomFor = () => studio.work.getState().noRoomFor;

/** As a browser answers when the quota is used up: nothing more is taken in, what is there can be read. */
const fillUp = () => {
  const full = () => {
    throw new DOMException('full', 'QuotaExceededError');
  };
  const put = vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(full);
  const add = vi.spyOn(IDBObjectStore.prototype, 'add').mockImplementation(full);
  return () => {
    put.mockRestore();
    add.mockRestore();
  };
};

/** A busy machine is slow, not wrong. */
const eventually = (check: () => unknown) => vi.waitFor(check, { timeout: 10_000 });

beforeEach(() => {
  vi.stubGlobal('indexedDB', new IDBFactory());
  vi.stubGlobal('document', new EventTarget());
  vi.stubGlobal('HTMLElement', EventTarget);
  const page = new EventTarget();
  vi.stubGlobal('addEventListener', page.addEventListener.bind(page));
  vi.stubGlobal('removeEventListener', page.removeEventListener.bind(page));
  vi.stubGlobal('dispatchEvent', page.dispatchEvent.bind(page));
  studio = makeStudio({ frames: createFrameStore() });
});
afterEach(() => {
  vi.useRealTimers();
  vi.restoreAllMocks();
  vi.unstubAllGlobals();
});

/** Whether the page asks before it is left. */
const asks = () => {
  const leaving = new Event('beforeunload', { cancelable: true });
  dispatchEvent(leaving);
  return leaving.defaultPrevented;
};

const paper = (id: string) => ({ id, name: id, widthMm: 100, heightMm: 150, note: '' });
const papersOf = ({ papers }: { papers: readonly { id: string }[] }) =>
  papers.map(({ id }) => id).filter((id) => !id.startsWith('starter'));

test('shelves: every change made without room is written with it, and none is taken back', async () => {
  const disk = openShelfStore();
  await recallShelves(studio, studio.room, disk);
  const { change } = studio.shelves.getState();
  const lay = (id: string) =>
    change(`adding ${id}`, addEntry(studio.shelves.getState().shelves, 'papers', paper(id)));
  const stored = async () => {
    const other = openShelfStore();
    const kept = await other.load();
    other.close();
    return kept.kind === 'shelves' ? papersOf(kept.shelves) : kept.kind;
  };
  lay('before');
  await eventually(async () => expect(await stored()).toEqual(['before']));

  const makeRoom = fillUp();
  lay('first');
  await eventually(() => expect(noRoomFor()).toEqual(['the shelves']));
  expect(studio.shelves.getState().notice?.lines.join()).toContain(
    'see under Jobs what can be freed',
  );
  lay('second');
  change('removing', removeEntry(studio.shelves.getState().shelves, 'papers', 'before'));
  await studio.room.tryAgain();
  expect(noRoomFor()).toEqual(['the shelves']);
  expect(asks()).toBe(true);
  makeRoom();
  expect(await stored()).toEqual(['before']);

  // The next change brings all of them along.
  lay('third');
  await eventually(async () => expect(await stored()).toEqual(['first', 'second', 'third']));
  expect(papersOf(studio.shelves.getState().shelves)).toEqual(['first', 'second', 'third']);
  expect(noRoomFor()).toEqual([]);
  expect(studio.shelves.getState().notice).toBeUndefined();
  expect(asks()).toBe(false);

  // A change that waits is laid onto what another tab kept meanwhile, and by itself once there is room.
  const again = fillUp();
  lay('fourth');
  await eventually(() => expect(noRoomFor()).toEqual(['the shelves']));
  again();
  const other = openShelfStore();
  const theirs = await other.load();
  if (theirs.kind !== 'shelves') throw new Error(theirs.kind);
  await other.save(theirs.shelves, addEntry(theirs.shelves, 'papers', paper('elsewhere')));
  other.close();
  await studio.room.tryAgain();
  await eventually(async () =>
    expect(await stored()).toEqual(['first', 'second', 'third', 'elsewhere', 'fourth']),
  );
  await eventually(() =>
    expect(papersOf(studio.shelves.getState().shelves)).toEqual(
      expect.arrayContaining(['first', 'second', 'third', 'fourth', 'elsewhere']),
    ),
  );
  disk.close();
});

test('proved pitches: those that found no room are kept in their order, each once', async () => {
  const proved = (paper: string) => ({
    ...newJob(),
    provedPitch: { viewingPitchMm: 0.4231, readFromMm: 400, paper, readOn: '2026-11-25' },
  });
  const makeRoom = fillUp();
  for (const name of ['matt', 'gloss'])
    expect(await studio.pitches.remember(proved(name) as never)).toMatch(/no room.*see under Jobs/);
  expect(noRoomFor()).toEqual(['the proved pitch']);
  expect(studio.work.getState().pitchReadings).toHaveLength(2);
  makeRoom();
  await Promise.all([studio.room.tryAgain(), studio.room.tryAgain()]);
  expect((await loadReadings()).map((one) => one.proved.paper)).toEqual(['matt', 'gloss']);
  expect(noRoomFor()).toEqual([]);
});

test('parallax: of two that found no room the later is kept, ten seconds on at the latest', async () => {
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
  const makeRoom = fillUp();
  const measured = (key: string) => ({ key, pairs: [], votes: { right: 1, reversed: 0 } });
  for (const key of ['first', 'second'])
    expect(await studio.room.keep('the measured parallax', () => keepParallax(measured(key)))).toBe(
      false,
    );
  makeRoom();
  vi.advanceTimersByTime(10_000);
  vi.useRealTimers();
  await eventually(async () => expect((await loadParallax())?.key).toBe('second'));
  await eventually(() => expect(noRoomFor()).toEqual([]));
});

test('settings: a full browser refuses no change of them, and remembers the last once there is room', async () => {
  const stored = new Map<string, string>();
  const setItem = vi.fn((key: string, value: string) => void stored.set(key, value));
  vi.stubGlobal('localStorage', { getItem: () => null, setItem, removeItem: () => undefined });
  studio = makeStudio();
  setItem.mockImplementation(() => {
    throw new DOMException('full', 'QuotaExceededError');
  });
  studio.view.getState().set({ units: 'in' });
  studio.view.getState().set({ fileType: 'pdf' });
  expect(studio.view.getState().units).toBe('in');
  await eventually(() => expect(noRoomFor()).toEqual(['your settings (units, theme, file type)']));
  setItem.mockImplementation((key, value) => void stored.set(key, value));
  await studio.room.tryAgain();
  expect(JSON.parse(stored.get('tiltloom-view') ?? '{}')).toMatchObject({
    state: { units: 'in', fileType: 'pdf' },
  });
  expect(noRoomFor()).toEqual([]);
});

test('a trial’s photo stands in the trial, and is copied once there is room', async () => {
  const job = addGoodTrial(newJob(), { id: 'first', on: '2026-11-25' });
  studio.document.getState().open(job);
  const makeRoom = fillUp();
  const file = new File(['a print'], 'print.jpg');
  expect(await takePhoto(studio, 'first', file)).toMatch(
    /no room.*the photo print\.jpg.*under Jobs/,
  );
  const photoId = studio.document.getState().job.trials?.[0]?.photoId ?? '';
  expect(await (await studio.disk.frames.open(photoId)).text()).toBe('small');
  expect(noRoomFor()).toEqual(['the photo print.jpg']);
  makeRoom();
  await studio.room.tryAgain();
  expect(noRoomFor()).toEqual([]);
  // As the next page finds it.
  expect(await (await createFrameStore().open(photoId)).text()).toBe('small');
});

test('what fails for another reason than room is thrown, and does not wait', async () => {
  const refused = () => Promise.reject(new DOMException('no', 'SecurityError'));
  await expect(studio.room.keep('a thing', refused)).rejects.toThrow('no');
  expect(noRoomFor()).toEqual([]);
  expect(asks()).toBe(false);
});

describe('the job', () => {
  test('stays in the page, is asked about before it is left, and is kept once there is room', async () => {
    const stop = studio.keeper.start();
    await studio.keeper.begin();
    const { jobId, change } = studio.document.getState();
    const makeRoom = fillUp();
    change('job name', (job) => ({ ...job, name: 'Heron' }));
    await studio.keeper.flush();
    expect(noRoomFor()).toEqual(['the job “Heron”']);
    expect(asks()).toBe(true);
    change('job name', (job) => ({ ...job, name: 'Heron at dusk' }));
    await studio.keeper.flush();
    expect(studio.document.getState().job.name).toBe('Heron at dusk');
    makeRoom();
    await studio.keeper.flush();
    expect(await studio.disk.jobs.loadJobById(jobId)).toMatchObject({
      job: { name: 'Heron at dusk' },
    });
    expect(noRoomFor()).toEqual([]);
    expect(asks()).toBe(false);
    stop();
  });

  test('an older state that found no room is not written over the newer that did', async () => {
    const stop = studio.keeper.start();
    await studio.keeper.begin();
    const { jobId, change } = studio.document.getState();
    const save = vi.spyOn(studio.disk.jobs, 'saveJob');
    save.mockRejectedValueOnce(new DOMException('full', 'QuotaExceededError'));
    change('job name', (job) => ({ ...job, name: 'older' }));
    const first = studio.keeper.flush();
    change('job name', (job) => ({ ...job, name: 'newer' }));
    await Promise.all([first, studio.keeper.flush()]);
    await studio.keeper.flush();
    expect(await studio.disk.jobs.loadJobById(jobId)).toMatchObject({ job: { name: 'newer' } });
    stop();
  });

  test('is kept at once when the page is hidden, goes or is frozen', async () => {
    const save = vi.spyOn(studio.disk.jobs, 'saveJob');
    Object.assign(document, { visibilityState: 'hidden' });
    const stop = studio.keeper.start();
    await studio.keeper.begin();
    const { jobId, change } = studio.document.getState();
    // In a field that was never left; a browser tells the field, which tells the job.
    const typed = Object.assign(new EventTarget(), {
      blur: () => change('job name', (job) => ({ ...job, name: 'typed' })),
    });
    for (const [name, go] of [
      ['hidden', () => document.dispatchEvent(new Event('visibilitychange'))],
      ['frozen', () => document.dispatchEvent(new Event('freeze'))],
      ['gone', () => dispatchEvent(new Event('pagehide'))],
    ] as const) {
      change('job name', (job) => ({ ...job, name }));
      go();
      expect(save.mock.lastCall).toMatchObject([jobId, { name }, { label: 'job name' }]);
    }
    Object.assign(document, { activeElement: typed });
    dispatchEvent(new Event('pagehide'));
    expect(save.mock.lastCall).toMatchObject([jobId, { name: 'typed' }, { label: 'job name' }]);
    await studio.keeper.flush();
    expect(await studio.disk.jobs.loadJobById(jobId)).toMatchObject({ job: { name: 'typed' } });
    stop();
  });
});
