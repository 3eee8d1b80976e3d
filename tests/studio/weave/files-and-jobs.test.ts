/**
 * Files that are woven belong to the job they were begun in: through a change of job, a sweep of the disk, freed
 * room and a full disk. Workers are held here, so that there is time between.
 */
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { BindCall } from '../../../src/calls/bind.ts';
import type { Outcome } from '../../../src/contract/errors.ts';
import type { SheetRequest } from '../../../src/calls/weave.ts';
import { StudioError } from '../../../src/contract/errors.ts';
import type { Sink } from '../../../src/contract/sink.ts';
import type { Job } from '../../../src/job/schema/job.ts';
import { newJob } from '../../../src/job/schema/job.ts';
import { endSheets } from '../../../src/studio/keep/job-list.ts';
import type { Studio } from '../../../src/studio/studio.ts';
import { weaveLampTarget } from '../../../src/studio/weave/lamp-target.ts';
import { weaveSheet } from '../../../src/studio/weave/sheet.ts';
import { weaveSlice } from '../../../src/studio/weave/slice.ts';
import { weaveStrip } from '../../../src/studio/weave/strip.ts';
import { weaveWedge } from '../../../src/studio/weave/wedge.ts';
import { makeStudio } from '../support.ts';

type Write = (
  request: unknown,
  sink: Sink,
  call: BindCall,
) => Promise<Outcome<{ byteLength: number }>>;

const mocks = vi.hoisted(() => ({
  weaveStrip: vi.fn<Write>(),
  weaveSheet: vi.fn<Write>(),
  prepareFrame: vi.fn(),
  removePrepared: vi.fn<(diskName: string) => Promise<void>>(),
}));
vi.mock('../../../src/calls/strip.ts', () => ({ weaveStrip: mocks.weaveStrip }));
vi.mock('../../../src/calls/weave.ts', () => ({ weaveSheet: mocks.weaveSheet }));
vi.mock('../../../src/calls/frames.ts', () => ({
  prepareFrame: mocks.prepareFrame,
  lookAt: vi.fn(),
}));
vi.mock('../../../src/files/sweep.ts', () => ({
  removePrepared: mocks.removePrepared,
  sweepLeftovers: vi.fn(),
}));

/** Writes ten bytes, then waits until it is let go. */
const held = () => {
  let letGo: () => void = () => undefined;
  const gone = new Promise<void>((resolve) => (letGo = resolve));
  const write: Write = async (_request, sink) => {
    await sink.write(new Uint8Array(10));
    await gone;
    await sink.close();
    return { done: true, value: { byteLength: 10 } };
  };
  return { write, letGo };
};

const atOnce: Write = async (_request, sink) => {
  await sink.write(new Uint8Array(10));
  await sink.close();
  return { done: true, value: { byteLength: 10 } };
};

const fullDisk: Write = async (_request, sink) => {
  await sink.write(new Uint8Array(10));
  await sink.abort();
  throw new StudioError('no-room', 'There is no room left to write it.');
};

const frame = { id: 'gull', name: 'gull.png', byteLength: 4, widthPx: 80, heightPx: 100 };
const withFrame = (job: Job): Job => ({
  ...job,
  frames: [{ ...frame, kind: 'PNG', sceneLinear: false, meanLight: 0.5 }],
});

let studio: Studio;
const jobNow = () => studio.document.getState().job;
const stage = (kind: Parameters<Studio['tasks']['state']>[1], jobId = 'a-job') =>
  studio.tasks.state(jobId, kind).stage;
const untilStage = (kind: Parameters<typeof stage>[0], wanted: string) =>
  vi.waitFor(() => expect(stage(kind)).toBe(wanted));

beforeEach(async () => {
  // What a browser's page has, and Node has not.
  vi.stubGlobal('addEventListener', vi.fn());
  vi.stubGlobal('removeEventListener', vi.fn());
  mocks.removePrepared.mockResolvedValue(undefined);
  let prepared = 0;
  mocks.prepareFrame.mockImplementation(async () => {
    prepared += 1;
    const pixels = new Blob([new Uint8Array(6)]);
    const made = { pixels, columns: 1, rows: 1, diskName: `prepared-${prepared}` };
    return { done: true, value: { frame: made } };
  });
  studio = makeStudio();
  studio.finished.start();
});
afterEach(() => {
  vi.unstubAllGlobals();
  vi.clearAllMocks();
});

/** Lays a frame into the job, and waits until it is prepared. */
const withPreparedFrame = async () => {
  await studio.disk.frames.keep(frame.id, frame.name, new Blob(['gull']), new Blob(['small']));
  studio.document.getState().open(withFrame(newJob()), { jobId: 'a-job' });
  studio.preparing.start();
  await vi.waitFor(() => expect(studio.work.getState().prepared.size).toBe(1));
  await vi.waitFor(() => expect(studio.work.getState().preparing).toBeUndefined());
};

describe('while a file is being written', () => {
  const targets = [
    ['wedge', () => weaveWedge(studio, 0.3)],
    ['lampTarget', () => weaveLampTarget(studio)],
    ['strip', () => weaveStrip(studio)],
  ] as const;

  it.each(targets)('no other job is opened or begun under a %s', async (kind, weave) => {
    const { write, letGo } = held();
    mocks.weaveStrip.mockImplementation(write);
    const weaving = weave();
    await untilStage(kind, 'weaving');
    const refusal = 'The open job is being woven. Wait until it is done, or stop it.';
    await expect(studio.keeper.open('another')).rejects.toThrow(refusal);
    await expect(studio.keeper.begin()).rejects.toThrow(refusal);
    letGo();
    await weaving;
    expect(stage(kind)).toBe('woven');
    expect(studio.document.getState().jobId).toBe('a-job');
  });

  it('the wedge is noted in the job it was begun in, and only when it is whole', async () => {
    const { write, letGo } = held();
    mocks.weaveStrip.mockImplementation(write);
    const weaving = weaveWedge(studio, 0.3);
    await untilStage('wedge', 'weaving');
    expect(jobNow().ghostWedge).toBeUndefined();
    letGo();
    await weaving;
    expect(jobNow().ghostWedge?.strongest).toBe(0.3);
  });

  it('a wedge whose job another tab took over meanwhile says that it could not be noted', async () => {
    const { write, letGo } = held();
    mocks.weaveStrip.mockImplementation(write);
    const weaving = weaveWedge(studio, 0.3);
    await untilStage('wedge', 'weaving');
    studio.document.setState({ lookOnly: 'Another tab has it.' });
    letGo();
    await weaving;
    expect(stage('wedge')).toBe('woven');
    expect(jobNow().ghostWedge).toBeUndefined();
    expect(studio.work.getState().deskNotice).toMatch(/is whole, but .* Another tab has it\./);
  });

  it('no room is freed, and afterwards no dead link stays', async () => {
    const { write, letGo } = held();
    mocks.weaveStrip.mockImplementation(write);
    const weaving = weaveWedge(studio, 0.3);
    await untilStage('wedge', 'weaving');
    await expect(endSheets(studio)).rejects.toThrow('is being woven');
    letGo();
    await weaving;
    expect(stage('wedge')).toBe('woven');
    await endSheets(studio);
    expect(stage('wedge')).toBe('idle');
  });

  it('the frames that a slice reads from stay on the disk until it is whole', async () => {
    await withPreparedFrame();
    const { write, letGo } = held();
    mocks.weaveSheet.mockImplementation(write);
    const weaving = weaveSlice(studio);
    await untilStage('slice', 'weaving');
    studio.change('viewing distance', (job) => ({
      ...job,
      print: { ...job.print, viewingDistanceMm: 777 },
    }));
    await vi.waitFor(() => expect(mocks.prepareFrame).toHaveBeenCalledTimes(2));
    await vi.waitFor(() => expect(studio.work.getState().preparing).toBeUndefined());
    expect(mocks.removePrepared).not.toHaveBeenCalled();
    expect(studio.preparing.inUse()).toContain('prepared-1');
    letGo();
    await weaving;
    await vi.waitFor(() => expect(mocks.removePrepared).toHaveBeenCalledWith('prepared-1'));
    expect(mocks.removePrepared).toHaveBeenCalledTimes(1);
  });

  it.each([
    ['changed', (job: Job): Job => ({ ...job, print: { ...job.print, viewingDistanceMm: 777 } })],
    ['emptied', (job: Job): Job => ({ ...job, frames: [] })],
  ])(
    'a slice is woven as the job stood, though it is %s before its frames are ready',
    async (_, edit) => {
      await withPreparedFrame();
      mocks.weaveSheet.mockImplementation(atOnce);
      studio.change('print width', (job) => ({ ...job, print: { ...job.print, widthMm: 50 } }));
      const weaving = weaveSlice(studio);
      studio.change('an edit', edit);
      await weaving;
      expect(stage('slice')).toBe('woven');
      const [request] = mocks.weaveSheet.mock.lastCall ?? [];
      const { sheet, stack } = request as SheetRequest;
      expect(sheet.widthDots / sheet.acrossDpi).toBeCloseTo(50 / 25.4, 1);
      // Prepared for this width, and given back now that the slice is whole.
      const { diskName = '' } = stack.frames[0] ?? {};
      const asked = mocks.prepareFrame.mock.calls.map(([one]) => (one as SheetRequest).sheet);
      expect(asked).toContainEqual(sheet);
      await vi.waitFor(() => expect(mocks.removePrepared).toHaveBeenCalledWith(diskName));
    },
  );
});

describe('a finished file', () => {
  it.each(['sheet', 'slice'] as const)('%s is offered in its own job alone', async (kind) => {
    await withPreparedFrame();
    mocks.weaveSheet.mockImplementation(atOnce);
    await (kind === 'sheet' ? weaveSheet : weaveSlice)(studio);
    const own = studio.tasks.state('a-job', kind);
    if (own.stage !== 'woven') throw new Error('it is not woven');
    expect(own.files[0]?.fileName).toContain(jobNow().name);
    const job = jobNow();
    studio.document.getState().open({ ...job, name: 'Another' }, { jobId: 'b-job' });
    expect(stage(kind, 'b-job')).toBe('idle');
    // Back in its job it is there again, and no staler than it was.
    studio.document.getState().open(job, { jobId: 'a-job' });
    expect(studio.tasks.state('a-job', kind)).toEqual(own);
    studio.finished.forgetJob('a-job');
    expect(stage(kind)).toBe('idle');
  });

  it('says when the job has changed since, and when undo has brought it back', async () => {
    await withPreparedFrame();
    mocks.weaveSheet.mockImplementation(atOnce);
    await weaveSheet(studio);
    const isStale = () => {
      const state = studio.tasks.state('a-job', 'sheet');
      return state.stage === 'woven' && state.stale;
    };
    expect(isStale()).toBe(false);
    studio.change('view slots', (job) => ({ ...job, viewSlots: 7 }));
    await vi.waitFor(() => expect(isStale()).toBe(true));
    studio.document.getState().undo();
    await vi.waitFor(() => expect(isStale()).toBe(false));
  });
});

describe('on a full disk', () => {
  it.each([
    ['wedge', () => weaveWedge(studio, 0.3)],
    ['lampTarget', () => weaveLampTarget(studio)],
  ] as const)('a %s says so, and the job keeps nothing of it', async (kind, weave) => {
    mocks.weaveStrip.mockImplementation(fullDisk);
    const before = jobNow();
    await weave();
    expect(studio.tasks.state('a-job', kind)).toMatchObject({
      stage: 'failed',
      files: [],
      message: 'There is no room left to write it.',
    });
    expect(jobNow()).toBe(before);
    expect(studio.work.getState().noRoomFor).toHaveLength(1);
    expect(studio.tasks.isWriting()).toBe(false);
  });

  it('a slice says so, and gives its frames back', async () => {
    await withPreparedFrame();
    mocks.weaveSheet.mockImplementation(fullDisk);
    await weaveSlice(studio);
    expect(stage('slice')).toBe('failed');
    studio.change('viewing distance', (job) => ({
      ...job,
      print: { ...job.print, viewingDistanceMm: 777 },
    }));
    await vi.waitFor(() => expect(mocks.removePrepared).toHaveBeenCalledWith('prepared-1'));
  });
});
