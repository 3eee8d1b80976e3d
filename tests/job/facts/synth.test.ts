/** Where made views' cameras stand, how far things move in them, and how made frames are told of. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { stepAt } from '../../../src/core/plan/depth.ts';
import { rigDepth } from '../../../src/core/plan/rig.ts';
import { mm } from '../../../src/core/units/units.ts';
import { insertAfter, layFrames } from '../../../src/job/edits/frames.ts';
import { findings } from '../../../src/job/findings/all.ts';
import type { Frame, Job } from '../../../src/job/schema/job.ts';
import { newJob } from '../../../src/job/schema/job.ts';
import type { Made } from '../../../src/job/schema/made.ts';
import { madeFinding, madeName, ownRun, sayInvented } from '../../../src/job/facts/made.ts';
import { rigSettingOf } from '../../../src/job/facts/rig.ts';
import { lenticulesAt, synthDefaults, synthPlan } from '../../../src/job/facts/synth.ts';

const scene = JSON.parse(
  readFileSync(new URL('../../../demo-scenes/glasshouse/scene.json', import.meta.url), 'utf8'),
) as { cameras: { xMm: number[] }; printWidthMm: number; depthGain: number };
// As demo-scenes/glasshouse/scene.json says of its print, lens and cameras; its depth gain is
// 0.895871 mm × N g' / (D p), relation 5 solved for γ.
const GAIN = scene.depthGain;
const glasshouse = (): Job => ({
  ...newJob(),
  depthGain: GAIN,
  rig: { unit: 'mm', keyWidth: 203.2, near: 127, far: 340 },
});

describe('the cameras of made views', () => {
  it('stand where the scene’s own generator put them, counted from the picture’s', () => {
    const job = glasshouse();
    const { slides, distance } = synthPlan(job, { ...synthDefaults(job), seenFrom: 5 });
    expect(distance).toBe(400);
    const { xMm } = scene.cameras;
    for (const [view, x] of xMm.entries())
      expect(slides[view]).toBeCloseTo((x - (xMm[5] ?? NaN)) / scene.printWidthMm, 7);
    const middle = synthPlan(job, synthDefaults(job)).slides;
    expect(middle[0]).toBeCloseTo(-(middle[11] ?? NaN), 12);
    expect(middle[0]).toBeCloseTo((xMm[0] ?? NaN) / scene.printWidthMm, 7);
  });

  it('begin with what the rig says of near and far, in the scene’s units or at the print’s size', () => {
    const job: Job = { ...glasshouse(), rig: { unit: 'm', keyWidth: 4, near: 2, far: 9 } };
    const choices = synthDefaults(job);
    expect(choices).toMatchObject({ nearest: -2, farthest: 9, gain: GAIN, views: 12 });
    expect(synthPlan(job, choices).meaning).toEqual({
      kind: 'near-white',
      nearest: -2,
      farthest: 9,
    });
    // 4 m at the key plane are 203.2 mm on the print.
    const print = synthPlan(job, { ...choices, unit: 'print', nearest: -101.6, keyZ: 50.8 });
    expect(print.meaning).toMatchObject({ nearest: expect.closeTo(-2, 9) as number });
    expect(print.keyZ).toBeCloseTo(1, 12);
    expect(synthDefaults(job, 'print').nearest).toBeCloseTo(-101.6, 9);
  });

  it('move things as relation 6 says, less what the key plane moves', () => {
    const job = glasshouse();
    const choices = synthDefaults(job);
    const steps = (z: number) => stepAt(rigDepth(rigSettingOf(job)), mm(z)) / job.lens.pitchMm;
    for (const z of [-127, 0, 60, 340])
      expect(lenticulesAt(job, choices, z)).toBeCloseTo(steps(z), 12);
    expect(lenticulesAt(job, { ...choices, keyZ: 60 }, 340)).toBeCloseTo(
      steps(340) - steps(60),
      12,
    );
    expect(lenticulesAt(job, { ...choices, keyZ: 60 }, 60)).toBe(0);
    // Twice the gain, twice the motion; twice the views, half of it.
    expect(lenticulesAt(job, { ...choices, gain: 2 * GAIN, views: 24 }, 340)).toBeCloseTo(
      steps(340),
      12,
    );
  });
});

const frame = (name: string, made?: Made): Frame => ({
  id: name,
  name,
  byteLength: 1,
  widthPx: 80,
  heightPx: 100,
  kind: 'PNG',
  sceneLinear: false,
  meanLight: 0.5,
  ...(made === undefined ? {} : { made }),
});
const made = (place: number, count: number, way: Made['way'], invented = 0.04): Made => ({
  from: ['hut_05.png'],
  way,
  place,
  count,
  invented,
});

describe('made frames', () => {
  it('say so in their name and of how much', () => {
    expect(madeName('hut_05.png', 3, 12)).toBe('hut_05 made 3 of 12');
    expect(sayInvented(0)).toBe('nothing filled');
    expect(sayInvented(0.0004)).toBe('under 0.1 % filled');
    expect(sayInvented(0.0412)).toBe('4.1 % filled');
  });

  it('are a finding, with the largest share filled, and none are missing or astray for their names', () => {
    const names = [1, 2, 3].map((place) => madeName('hut_05.png', place, 4));
    const job = layFrames({ ...newJob(), viewSlots: 4 }, [
      ...names.map((name, i) => frame(name, made(i + 1, 4, 'depth', 0.01 * (i + 1)))),
      frame('hut_05.png'),
    ]);
    const finding = madeFinding(job);
    expect(finding).toMatchObject({
      id: 'made-frames',
      severity: 'note',
      title: '3 of 4 frames shown are made, not rendered',
      figure: 'at most 3 % of a frame filled',
    });
    expect(finding?.remedy).toMatch(/trial/);
    const work = { prepareFaults: new Map<string, string>(), arrivalNotes: [] };
    const ids = findings(job, work).map(({ id }) => id);
    expect(ids).toContain('made-frames');
    expect(ids).not.toContain('frames-missing');
    expect(ids).not.toContain('frames-out-of-order');
    expect(madeFinding(layFrames(job, [frame('hut_05.png')]))).toBeUndefined();
  });

  it('fill a gap in the numbers, which then is none', () => {
    const rendered = [1, 2, 3, 5, 6].map((n) => frame(`hut_0${n}.png`));
    const job = layFrames(newJob(), rendered);
    expect(ownRun(job.frames)?.gaps).toHaveLength(1);
    const filled = insertAfter(job, 'hut_03.png', [
      frame('hut_03 made 1 of 1', made(1, 1, 'between')),
    ]);
    expect(filled.frames.map(({ name }) => name)).toEqual([
      'hut_01.png',
      'hut_02.png',
      'hut_03.png',
      'hut_03 made 1 of 1',
      'hut_05.png',
      'hut_06.png',
    ]);
    expect(ownRun(filled.frames)?.gaps).toEqual([]);
    expect(insertAfter(job, 'gone', [frame('x')])).toBe(job);
  });
});
