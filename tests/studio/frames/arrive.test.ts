/** Frames arrive batch by batch; a stop ends them all; measuring and making give way to a restart. */
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { Outcome } from '../../../src/contract/errors.ts';
import type { Frame } from '../../../src/job/schema/job.ts';
import { newJob } from '../../../src/job/schema/job.ts';
import { arrive } from '../../../src/studio/frames/arrive.ts';
import { startBetween } from '../../../src/studio/frames/made/make.ts';
import { startMeasuring } from '../../../src/studio/frames/measure-parallax.ts';
import type { Studio } from '../../../src/studio/studio.ts';
import { stackOf } from '../../../src/studio/prepare/stack.ts';
import { makeStudio } from '../support.ts';

const calls = vi.hoisted(() => ({
  lookAt: vi.fn(),
  prepareFrame: vi.fn(),
  measureSequence: vi.fn(),
  makeBetweens: vi.fn(),
}));
vi.mock('../../../src/calls/frames.ts', () => ({
  lookAt: calls.lookAt,
  prepareFrame: calls.prepareFrame,
  lookAtAndPrepare: async (
    file: Blob,
    name: string,
    options: object,
    requestOf: (facts: ReturnType<typeof looked>) => object | undefined,
    call: object,
  ) => {
    const outcome = (await calls.lookAt(file, name, options, call)) as Outcome<
      ReturnType<typeof looked>
    >;
    if (!outcome.done) return outcome;
    const request = requestOf(outcome.value);
    const prepared = request && { frame: { pixels: new Blob([name]), columns: 1, rows: 1 } };
    return { done: true, value: { facts: outcome.value, prepared } };
  },
}));
vi.mock('../../../src/calls/parallax.ts', () => ({ measureSequence: calls.measureSequence }));
vi.mock('../../../src/calls/synth.ts', () => ({
  makeBetweens: calls.makeBetweens,
  makeViews: vi.fn(),
}));

const looked = (name: string) => ({
  widthPx: 80,
  heightPx: 100,
  kind: 'PNG',
  sceneLinear: false,
  meanLight: 0.5,
  thumbnail: new Blob(['t']),
  fingerprint: `print of ${name}`,
});
const frame = (name: string): Frame => ({
  id: name,
  name,
  byteLength: 1,
  widthPx: 80,
  heightPx: 100,
  kind: 'PNG',
  sceneLinear: false,
  meanLight: 0.5,
});
const files = (...names: string[]) => ({
  arrivals: names.map((name) => ({ name, path: name, file: new Blob([name]) })),
  jobFiles: [],
  clips: [],
  profiles: [],
  leftOut: [],
});

let studio: Studio;
beforeEach(() => {
  studio = makeStudio();
  calls.lookAt.mockImplementation((_file: Blob, name: string) =>
    Promise.resolve({ done: true, value: looked(name) }),
  );
});
afterEach(() => vi.clearAllMocks());

const names = () => studio.document.getState().job.frames.map(({ name }) => name);
const said = () => studio.work.getState().announced.said;

describe('arrivals', () => {
  it('come one batch after the other, and hold up what would open another job', async () => {
    let give = (_: ReturnType<typeof files>) => {};
    const first = arrive(studio, () => new Promise((resolve) => (give = resolve)));
    const second = arrive(studio, () => Promise.resolve(files('b.png')));
    expect(studio.work.getState().arriving).toEqual({ done: 0, total: 0 });
    expect(() => studio.tasks.nothingUnderWay()).toThrow(/still being added/);
    give(files('a.png'));
    await first;
    expect(names()).toEqual(['a.png']);
    expect(studio.work.getState().arriving).toBeDefined();
    await second;
    expect(names()).toEqual(['a.png', 'b.png']);
    expect(studio.work.getState().arriving).toBeUndefined();
    expect(() => studio.tasks.nothingUnderWay()).not.toThrow();
    studio.document.getState().undo();
    expect(names()).toEqual(['a.png']);
  });

  it('pass over what the job has, and give a lost original back', async () => {
    await arrive(studio, () => Promise.resolve(files('a.png', 'b.png')));
    const lost = studio.document.getState().job.frames[1]?.id ?? '';
    studio.work.setState({ missingOriginals: new Set([lost]) });
    await arrive(studio, () => Promise.resolve(files('a.png', 'b.png', 'c.png')));
    expect(names()).toEqual(['a.png', 'b.png', 'c.png']);
    expect(said()).toBe(
      '1 frame added. 1 frame had been added before. 1 frame got the original back.',
    );
    expect(studio.work.getState().missingOriginals.size).toBe(0);
  });

  it('are decoded once: what fills a slot is prepared as it is looked at', async () => {
    studio.preparing.start();
    const faults = studio.work.getState().prepareFaults;
    await arrive(studio, () => Promise.resolve(files('a.png', 'b.png')));
    const { frames } = studio.document.getState().job;
    const { prepared } = studio.work.getState();
    expect([...prepared.keys()].sort()).toEqual(frames.map(({ id }) => id).sort());
    const { wholeParallax } = studio.work.getState();
    expect(stackOf(studio.document.getState().job, prepared, wholeParallax)).toBeDefined();
    // The watch has looked, and found nothing to prepare.
    await vi.waitFor(() => expect(studio.work.getState().prepareFaults).not.toBe(faults));
    expect(calls.prepareFrame).not.toHaveBeenCalled();
    // A change that it depends on has it prepared again.
    calls.prepareFrame.mockResolvedValue({ done: false });
    studio.change('distance', (job) => ({
      ...job,
      print: { ...job.print, viewingDistanceMm: 777 },
    }));
    await vi.waitFor(() => expect(calls.prepareFrame).toHaveBeenCalledTimes(2));
  });

  it('of more frames than there are slots are only looked at', async () => {
    const many = Array.from(
      { length: studio.document.getState().job.viewSlots + 1 },
      (_, i) => `${i}.png`,
    );
    await arrive(studio, () => Promise.resolve(files(...many)));
    expect(studio.work.getState().prepared.size).toBe(0);
  });

  it('are all ended by one stop', async () => {
    const signals: AbortSignal[] = [];
    calls.lookAt.mockImplementation(
      (_file: Blob, _name: string, _options: object, { signal }: { signal: AbortSignal }) =>
        signal.aborted
          ? Promise.resolve({ done: false })
          : new Promise((resolve) =>
              signal.addEventListener('abort', () => resolve({ done: false })),
            ),
    );
    const both = ['a.png', 'b.png'].map((name) =>
      arrive(studio, (signal) => {
        signals.push(signal);
        return Promise.resolve(files(name));
      }),
    );
    await vi.waitFor(() => expect(calls.lookAt).toHaveBeenCalled());
    studio.arrivals.stop();
    await Promise.all(both);
    expect(signals.map(({ aborted }) => aborted)).toEqual([true, true]);
    expect(names()).toEqual([]);
    expect(said()).toMatch(/Stopped/);
    await arrive(studio, () => Promise.reject(new Error('the zip is broken')));
    expect(studio.work.getState().arrivalNotes.at(-1)?.message).toBe('the zip is broken');
    expect(studio.work.getState().arriving).toBeUndefined();
  });
});

describe('a restart', () => {
  beforeEach(async () => {
    for (const name of ['a.png', 'b.png'])
      await studio.disk.frames.keep(name, name, new Blob([name]), new Blob(['t']));
    studio.document
      .getState()
      .open({ ...newJob(), frames: [frame('a.png'), frame('b.png')] }, { jobId: 'j' });
  });

  it('of measuring stops the one before, whose progress then counts no more', async () => {
    type Call = { signal: AbortSignal; onProgress: (done: number, total: number) => void };
    const runs: { call: Call; end: (outcome: Outcome<object>) => void }[] = [];
    calls.measureSequence.mockImplementation(
      (_frames: object, _settings: object, call: Call) =>
        new Promise((end) => runs.push({ call, end })),
    );
    const first = startMeasuring(studio);
    await vi.waitFor(() => expect(runs).toHaveLength(1));
    const second = startMeasuring(studio);
    await vi.waitFor(() => expect(runs).toHaveLength(2));
    expect(runs[0]?.call.signal.aborted).toBe(true);
    runs[1]?.call.onProgress(2, 7);
    runs[0]?.call.onProgress(5, 7);
    expect(studio.work.getState().measuring).toEqual({ done: 2, total: 7 });
    runs[0]?.end({ done: false });
    await first;
    expect(studio.work.getState().measuring).toEqual({ done: 2, total: 7 });
    runs[1]?.end({ done: true, value: { right: 1, reversed: 0 } });
    await second;
    expect(studio.work.getState().measuring).toBeUndefined();
    expect(studio.work.getState().wholeParallax?.votes).toEqual({ right: 1, reversed: 0 });
    expect(said()).toBe('The parallax is measured.');
  });

  it('of making, too; frames between are laid in as one step', async () => {
    type Call = { signal: AbortSignal; report: (done: number, total: number) => void };
    const runs: { call: Call; end: (outcome: Outcome<object[]>) => void }[] = [];
    calls.makeBetweens.mockImplementation(
      (_pair: object, _places: object, call: Call) =>
        new Promise((end) => runs.push({ call, end })),
    );
    const stage = () => studio.made.store.getState().stage;
    const first = startBetween(studio);
    await vi.waitFor(() => expect(runs).toHaveLength(1));
    const second = startBetween(studio);
    await vi.waitFor(() => expect(runs).toHaveLength(2));
    runs[0]?.end({ done: false });
    await first;
    expect(stage()).toMatchObject({ kind: 'making' });
    const made = { file: new Blob(['m']), filledFile: new Blob(['f']), invented: 0.1 };
    runs[1]?.end({ done: true, value: [made] });
    await second;
    expect(stage()).toEqual({
      kind: 'done',
      text: 'One frame made between a.png and b.png.',
    });
    expect(names()).toEqual(['a.png', 'a made 1 of 1', 'b.png']);
    const between = studio.document.getState().job.frames[1];
    expect(between?.made).toMatchObject({ from: ['a.png', 'b.png'], way: 'between', place: 1 });
    studio.document.getState().undo();
    expect(names()).toEqual(['a.png', 'b.png']);
  });

  it('that would land in another job is left out, and a stop is told', async () => {
    calls.makeBetweens.mockImplementation(() => {
      studio.document.getState().open(newJob(), { jobId: 'another' });
      return Promise.resolve({
        done: true,
        value: [{ file: new Blob(['m']), filledFile: new Blob(['f']), invented: 0 }],
      });
    });
    await startBetween(studio);
    expect(studio.made.store.getState().stage).toMatchObject({ kind: 'failed' });
    expect(names()).toEqual([]);
  });
});
