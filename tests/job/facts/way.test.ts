/** The way: what a job needs next, and why, from its first frame to the print that was looked at. */
import { describe, expect, test } from 'vitest';
import { gangOf } from '../../../src/job/facts/gang.ts';
import { mountSteps } from '../../../src/job/facts/mount/steps.ts';
import type { WayFacts } from '../../../src/job/facts/way.ts';
import { wayOf } from '../../../src/job/facts/way.ts';
import type { Frame, Job } from '../../../src/job/schema/job.ts';
import { newJob } from '../../../src/job/schema/job.ts';

const frame = (number: number): Frame => ({
  id: `f${number}`,
  name: `lighthouse_${String(number).padStart(2, '0')}.png`,
  byteLength: 100,
  widthPx: 1600,
  heightPx: 2000,
  kind: 'png',
  sceneLinear: false,
  meanLight: 0.4,
});
const frames = (...numbers: number[]) => numbers.map(frame);
const all = frames(1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12);
const proved = { viewingPitchMm: 0.424, readFromMm: 400, plusMinusLpi: 0.01 };

const nothing: WayFacts = { lost: 0, coming: false, file: 'none' };
const next = (job: Partial<Job>, facts: Partial<WayFacts> = {}) =>
  wayOf({ ...newJob(), ...job }, { ...nothing, ...facts }).step;

test('a lens or a printer that nobody has named yet comes before its pitch is proved', () => {
  const guessed: Partial<Job> = { frames: all, guessed: ['lensPitch', 'printer', 'distance'] };
  expect(next(guessed).says).toBe('Say which lens and printer you have');
  expect(next(guessed).why).toMatch(/60 LPI and 720 dpi/);
  expect(next(guessed).act).toEqual({ label: 'Answer', goTo: 'ask' });
  expect(next({ frames: all, guessed: ['printer'] }).says).toBe('Say which printer you have');
  expect(next({ frames: all, guessed: ['distance'] })).toMatchObject({ id: 'strip' });
  expect(next({ ...guessed, copyOf: 'glasshouse' })).toMatchObject({ id: 'strip' });
});

describe('frames first', () => {
  test('a scene on the stage: its views are rendered, unless its depth cannot be seen', () => {
    const stage = {
      sceneId: 's',
      sceneName: 'kiosk.glb',
      fingerprint: 'f',
      pose: [0, 0, 0, 0, 0, 0, 1],
    };
    expect(next({ stage })).toMatchObject({ id: 'frames', act: { goTo: 'shoot' } });
    expect(next({ stage, ribs: 'lying' })).toMatchObject({ act: { goTo: 'frames' } });
    expect(next({ stage, frames: all })).not.toMatchObject({ act: { goTo: 'shoot' } });
  });

  test('none yet: renders for depth, pictures for a flip, which has no depth to plan', () => {
    expect(next({})).toMatchObject({ id: 'frames', act: { goTo: 'frames' } });
    expect(next({}).why).toMatch(/Shoot/);
    const flip = next({
      recipe: { kind: 'flip', pictures: ['', ''], guardSlots: 1, guard: 'mean' },
    });
    expect(flip.says).toMatch(/2 pictures/);
    expect(flip.why).not.toMatch(/depth|Shoot/);
  });

  test('a demo is to look at: own pictures come next', () => {
    expect(next({ demo: 'glasshouse', frames: all })).toMatchObject({ id: 'own-pictures' });
  });

  test('while they come, nothing else is said', () => {
    expect(next({}, { coming: true })).toMatchObject({ id: 'coming', act: undefined });
  });

  test('missing ones are counted; originals that are gone, too', () => {
    expect(next({ frames: frames(1, 2, 5, 7) }).says).toBe('3 frames are missing');
    expect(next({ frames: frames(1, 2, 4) }).says).toBe('A frame is missing');
    expect(next({ frames: all }, { lost: 1 })).toMatchObject({ id: 'originals' });
  });

  test('a flip’s pictures bear any numbers, but each must be chosen', () => {
    const flip = (pictures: string[]): Partial<Job> => ({
      frames: frames(1, 7),
      recipe: { kind: 'flip', pictures, guardSlots: 1, guard: 'mean' },
    });
    expect(next(flip(['f1', ''])).says).toBe('A picture of the flip is not chosen');
    expect(next(flip(['f1', 'f7']))).toMatchObject({ id: 'strip' });
  });
});

describe('then the pitch', () => {
  test('nominal: a strip, with the figures that say why', () => {
    expect(next({ frames: all })).toMatchObject({
      id: 'strip',
      says: 'The pitch is nominal: weave a pitch strip',
      why: 'This print needs ±0.031 LPI; a nominal pitch is known to about ±0.1 LPI.',
      act: { goTo: 'calibrate' },
    });
  });

  test('not for a print so narrow that a nominal pitch is exact enough', () => {
    const print = { widthMm: 50, heightMm: 50, viewingDistanceMm: 400 };
    expect(next({ frames: all, print })).toMatchObject({ id: 'weave' });
  });

  test('proved, but not exactly enough: a finer strip', () => {
    expect(next({ frames: all, provedPitch: { ...proved, plusMinusLpi: 0.08 } }).says).toMatch(
      /finer/,
    );
  });
});

describe('then the sheet and the print', () => {
  const trials = (outcome: 'good' | 'failed') =>
    [{ outcome }] as unknown as NonNullable<Job['trials']>;
  const ready: Partial<Job> = { frames: all, provedPitch: proved };
  const steps = mountSteps({ ...newJob(), ...ready }, { unit: 'mm', fileType: 'png' }).map(
    ({ id }) => id,
  );

  test('woven, woven again when the job has changed, then mounted', () => {
    expect(next(ready)).toMatchObject({ id: 'weave', act: { goTo: 'weave' } });
    expect(next(ready, { file: 'weaving' }).act).toBeUndefined();
    expect(next(ready, { file: 'stale' }).says).toBe('The sheet is older than the job');
    expect(next(ready, { file: 'woven' })).toMatchObject({ id: 'mount', act: { goTo: 'mount' } });
  });

  test('tiles and several prints are woven on Mount', () => {
    const gang = { ...gangOf(newJob()), on: true };
    expect(next({ ...ready, gang }).act).toMatchObject({ goTo: 'mount' });
  });

  test('steps that are ticked say that there is a sheet, and count', () => {
    expect(next({ ...ready, mountTicks: [steps[0] ?? ''] }).says).toMatch(/^1 of \d+ steps/);
  });

  test('all ticked: look at it; looked at: nothing more', () => {
    const mountTicks = steps;
    expect(next({ ...ready, mountTicks })).toMatchObject({ id: 'look', act: { goTo: 'mend' } });
    expect(next({ ...ready, trials: trials('good') })).toMatchObject({
      id: 'done',
      act: undefined,
    });
  });

  test('a print that failed: woven again with the corrected number, then mounted', () => {
    const failed = { ...ready, mountTicks: steps, trials: trials('failed') };
    expect(next(failed)).toMatchObject({ id: 'weave-mended', act: { goTo: 'weave' } });
    expect(next({ ...failed, mountTicks: [] }, { file: 'woven' })).toMatchObject({ id: 'mount' });
  });
});

describe('what the benches’ tabs tell', () => {
  const marks = (job: Partial<Job>, facts: Partial<WayFacts> = {}) =>
    wayOf({ ...newJob(), ...job }, { ...nothing, ...facts }).marks;

  test('of a new job: frames come next, and nothing is done', () => {
    expect(marks({})).toEqual({ frames: 'next' });
  });

  test('of a flip: it has no cameras to place', () => {
    const flip: Job['recipe'] = {
      kind: 'flip',
      pictures: ['f1', 'f7'],
      guardSlots: 1,
      guard: 'mean',
    };
    expect(marks({ recipe: flip, frames: frames(1, 7) })).toEqual({
      shoot: 'unused',
      frames: 'done',
      calibrate: 'next',
    });
  });

  test('what is done stays told while the next is done, and a changed job takes its sheet back', () => {
    const ready: Partial<Job> = { frames: all, provedPitch: proved };
    const both = { frames: 'done', calibrate: 'done' };
    expect(marks(ready)).toEqual({ ...both, weave: 'next' });
    expect(marks(ready, { file: 'woven' })).toEqual({ ...both, weave: 'done', mount: 'next' });
    expect(marks(ready, { file: 'stale' })).toEqual({ ...both, weave: 'next' });
  });

  test('a frame that went missing is what comes next, whatever was done before', () => {
    expect(marks({ frames: frames(1, 2, 4), provedPitch: proved })).toEqual({
      frames: 'next',
      calibrate: 'done',
    });
  });
});
