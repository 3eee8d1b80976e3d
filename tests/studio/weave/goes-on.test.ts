/** A weave that broke off, in the studio: what is kept with which job, what forbids to go on, and what is let go. */
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { BindCall } from '../../../src/calls/bind.ts';
import type { Outcome } from '../../../src/contract/errors.ts';
import type { Sink } from '../../../src/contract/sink.ts';
import { createKeptRuns } from '../../../src/files/kept-runs.ts';
import type { Shelf } from '../../../src/files/shelves.ts';
import { openMemoryShelf } from '../../../src/files/shelves.ts';
import { newJob } from '../../../src/job/schema/job.ts';
import { setPrinter } from '../../../src/job/edits/consequences.ts';
import type { Studio } from '../../../src/studio/studio.ts';
import { weaveFiles } from '../../../src/studio/weave/weave-file.ts';
import { weaveStrip } from '../../../src/studio/weave/strip.ts';
import { makeStudio } from '../support.ts';

type Write = (
  request: unknown,
  sink: Sink,
  call: BindCall,
) => Promise<Outcome<{ byteLength: number }>>;
const mocks = vi.hoisted(() => ({ weaveStrip: vi.fn<Write>() }));
vi.mock('../../../src/calls/strip.ts', () => ({ weaveStrip: mocks.weaveStrip }));

const HEAD = 'head ';
const bands = ['one ', 'two ', 'three '];
const bytesOf = (text: string) => new TextEncoder().encode(text);

/** Writes what is not there yet; after so many bands the page is gone. */
const writing =
  (until = Infinity): Write =>
  async (_request, sink) => {
    await sink.write(bytesOf(HEAD));
    for (const [index, band] of bands.entries()) {
      if (index < (sink.begun?.length ?? 0)) continue;
      if (index >= until) {
        await sink.abort();
        return { done: false };
      }
      await sink.writeBand?.({ bytes: bytesOf(band), adler32: 1, rawLength: 9 }, 700);
    }
    await sink.write(bytesOf('tail'));
    await sink.close();
    return { done: true, value: { byteLength: 23 } };
  };

let shelf: Shelf;
/** A page of the browser: what lies on the disk is the same for all. */
const openPage = (jobId = 'a-job'): Studio => {
  const studio = makeStudio({ runs: createKeptRuns(async () => shelf) });
  studio.document.getState().open(newJob(), { jobId });
  studio.finished.start();
  return studio;
};
const stripOf = (studio: Studio) => studio.tasks.state('a-job', 'strip');
const untilStage = (studio: Studio, stage: string) =>
  vi.waitFor(() => expect(stripOf(studio).stage).toBe(stage));

beforeEach(() => {
  vi.stubGlobal('addEventListener', vi.fn());
  vi.stubGlobal('removeEventListener', vi.fn());
  shelf = openMemoryShelf();
});
afterEach(() => {
  vi.unstubAllGlobals();
  vi.clearAllMocks();
});

describe('after the page went', () => {
  it('a weave goes on with what is kept, and its file is whole', async () => {
    mocks.weaveStrip.mockImplementation(writing(2));
    await weaveStrip(openPage());
    const next = openPage();
    await untilStage(next, 'stopped');
    expect(stripOf(next)).toMatchObject({ files: [], begun: { changed: [], pageWent: true } });

    mocks.weaveStrip.mockImplementation(writing());
    await weaveStrip(next, { go: 'on' });
    const state = stripOf(next);
    if (state.stage !== 'woven') throw new Error('it is not whole');
    const [file] = state.files;
    expect(await (await fetch(file?.href ?? '')).text()).toBe('head one two three tail');
    expect(next.document.getState().job.pitchStrip?.woven, 'the job notes it').toBeDefined();
  });

  it('a whole file is found again with its own job alone', async () => {
    mocks.weaveStrip.mockImplementation(writing());
    await weaveStrip(openPage());
    const next = openPage('another-job');
    await vi.waitFor(async () => expect((await shelf.keys()).length).toBeGreaterThan(0));
    expect(next.tasks.state('another-job', 'strip').stage).toBe('idle');
    next.document.getState().open(newJob(), { jobId: 'a-job' });
    await untilStage(next, 'woven');
  });

  it('the page keeps the date of its beginning', async () => {
    vi.useFakeTimers({ toFake: ['Date'], now: new Date('2026-03-04T10:00:00') });
    mocks.weaveStrip.mockImplementation(writing(1));
    await weaveStrip(openPage());
    vi.setSystemTime(new Date('2026-03-09T10:00:00'));
    const next = openPage();
    vi.useRealTimers();
    await untilStage(next, 'stopped');
    await weaveStrip(next, { go: 'on' });
    const [request] = mocks.weaveStrip.mock.calls.at(-1) as unknown as [
      { strip: { foot: string } },
    ];
    expect(JSON.stringify(request.strip.foot)).toContain('2026-03-04');
  });
});

it('a tile that is woven alone is no whole weave, and the rest of them makes it one', async () => {
  const studio = openPage();
  const write = async (_frames: true, sink: Sink, call: BindCall) => writing()({}, sink, call);
  const info = { width: 4, height: 2100, horizontalDpi: 720, verticalDpi: 720 };
  const tiles = () => ({
    named: 'the tiles',
    to: 'private-disk' as const,
    prepare: () => Promise.resolve(true as const),
    files: ['one', 'two'].map((name) => ({ name, fileName: `${name}.png`, info, write })),
  });
  await weaveFiles<true>(studio, 'tiles', tiles, { go: { again: 1 } });
  expect(studio.tasks.state('a-job', 'tiles')).toMatchObject({
    stage: 'stopped',
    files: [{ name: 'two' }],
    begun: { share: 0.5 },
  });
  expect(studio.view.getState().wovenMarks).not.toHaveProperty('a-job');
  await weaveFiles<true>(studio, 'tiles', tiles, { go: 'on' });
  expect(studio.tasks.state('a-job', 'tiles').stage).toBe('woven');
  expect(studio.view.getState().wovenMarks).toHaveProperty('a-job');
});

it('it does not go on with another printer, says why, and keeps what there is', async () => {
  mocks.weaveStrip.mockImplementation(writing(2));
  const studio = openPage();
  await weaveStrip(studio);
  studio.change('dots across', (job) => setPrinter(job, { carriageDpi: 1440 }));
  await weaveStrip(studio, { go: 'on' });
  expect(studio.work.getState().deskNotice).toContain('because what it shows changed since');
  expect(stripOf(studio)).toMatchObject({ stage: 'stopped', begun: { pageWent: false } });
  expect(mocks.weaveStrip).toHaveBeenCalledTimes(1);
  studio.document.getState().undo();
  mocks.weaveStrip.mockImplementation(writing());
  await weaveStrip(studio, { go: 'on' });
  expect(stripOf(studio).stage).toBe('woven');
});

it('of a weave that never came to a band nothing is kept', async () => {
  mocks.weaveStrip.mockImplementation(writing(0));
  const studio = openPage();
  await weaveStrip(studio);
  expect(stripOf(studio)).not.toHaveProperty('begun');
  await vi.waitFor(async () => expect(await shelf.keys()).toEqual([]));
});

it('the disk keeps the last weave of a kind and the one before, and lets older ones go', async () => {
  mocks.weaveStrip.mockImplementation(writing());
  const studio = openPage();
  for (let i = 0; i < 4; i += 1) await weaveStrip(studio);
  const runs = async () => (await shelf.keys()).filter((key) => key.endsWith('.run')).length;
  await vi.waitFor(async () => expect(await runs()).toBe(2));
  await untilStage(openPage(), 'woven');
  await vi.waitFor(async () => expect(await runs()).toBe(1));
});

it('a start removes what belongs to no kept job, and rubbish', async () => {
  mocks.weaveStrip.mockImplementation(writing());
  await weaveStrip(openPage());
  await shelf.put('0f0e', new Blob(['of a job file that was never saved']));
  await shelf.put('dead.run', new Blob(['{']));
  const before = await shelf.keys();
  await createKeptRuns(async () => shelf).sweep((owner) => owner === 'a-job');
  const after = await shelf.keys();
  expect(before.filter((key) => !after.includes(key)).sort()).toEqual(['0f0e', 'dead.run']);
  await createKeptRuns(async () => shelf).sweep(() => false);
  expect(await shelf.keys()).toEqual([]);
});
