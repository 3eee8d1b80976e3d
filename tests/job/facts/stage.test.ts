/** The stage of a job: what moves with what, and which views must be rendered again. */
import { describe, expect, test } from 'vitest';
import { dragStage, keyThrough, widenStage } from '../../../src/job/edits/stage.ts';
import { setDepthGain } from '../../../src/job/edits/consequences.ts';
import { pixelIdsOf } from '../../../src/job/facts/pixels.ts';
import { keyDistanceOf, keyWidthOf, rigGainThatFits, setRig } from '../../../src/job/facts/rig.ts';
import {
  keyBetween,
  moveKeyOnStage,
  secondsAt,
  setStage,
  stageCamera,
  standOfViews,
  viewsWanted,
} from '../../../src/job/facts/stage.ts';
import type { Frame, Job } from '../../../src/job/schema/job.ts';
import { newJob } from '../../../src/job/schema/job.ts';

const stage = {
  sceneId: 'scene-1',
  sceneName: 'shop.glb',
  fingerprint: 'abc',
  pose: [1, 2, 3, 0, 0, 0, 1],
};
const staged: Job = setRig({ ...newJob(), viewSlots: 3, stage }, { unit: 'm', keyWidth: 2 });
const middle = (job: Job) => stageCamera(job, job.stage ?? stage).place;

const frameOf = (key: string, at: number): Frame => ({
  id: `frame-${at}`,
  name: `view ${at}`,
  byteLength: 1,
  widthPx: 10,
  heightPx: 10,
  kind: 'PNG',
  sceneLinear: false,
  meanLight: 0.5,
  made: { from: ['shop.glb'], way: 'stage', place: at + 1, count: 3, invented: 0, key },
});
const withViews = (job: Job): Job => ({
  ...job,
  frames: viewsWanted(job).map(({ key }, at) => frameOf(key, at)),
});

describe('the rig in the scene', () => {
  test('the key plane moves and the cameras stay, as does the angle they see', () => {
    const moved = moveKeyOnStage(staged, 0.7);
    middle(staged).forEach((value, axis) => {
      expect(middle(moved)[axis]).toBeCloseTo(value, 6);
    });
    expect(keyDistanceOf(moved)).toBeCloseTo(keyDistanceOf(staged) + 0.7, 6);
    expect(keyWidthOf(moved) / keyDistanceOf(moved)).toBeCloseTo(
      keyWidthOf(staged) / keyDistanceOf(staged),
      6,
    );
    expect(keyDistanceOf(keyThrough(staged, 2.5))).toBeCloseTo(2.5, 6);
  });

  test('a drag turns about the middle of the key plane, and a wider frame keeps it', () => {
    const turned = dragStage(staged, 'turn', 0.25, 0.1);
    expect(turned.stage?.pose.slice(0, 3)).toEqual([1, 2, 3]);
    const [x, y, z] = middle(turned);
    expect(Math.hypot(x - 1, y - 2, z - 3)).toBeCloseTo(keyDistanceOf(staged), 6);
    expect(y).toBeGreaterThan(2);
    expect(keyWidthOf(widenStage(staged, 1.5))).toBeCloseTo(3, 6);
    expect(dragStage(newJob(), 'turn', 1, 1)).toEqual(newJob());
  });

  test('between nearest and farthest the gain is the largest that fits', () => {
    const known = setRig(staged, { near: 1, far: 6 });
    const best = rigGainThatFits(keyBetween(known)) ?? 0;
    for (const by of [-0.4, -0.1, 0.1, 0.4])
      expect(rigGainThatFits(moveKeyOnStage(keyBetween(known), by)) ?? 0).toBeLessThan(best);
  });
});

describe('rendered views', () => {
  test('fit as long as nothing they depend on has changed', () => {
    const done = withViews(staged);
    expect(standOfViews(done)).toBe('fresh');
    expect(standOfViews({ ...done, name: 'Another name', soften: 0.5 })).toBe('fresh');
    const missing = (job: Job) =>
      viewsWanted(job).filter(({ frame }) => frame === undefined).length;
    // Another gain moves the outer cameras of three, not the middle one.
    expect(missing(setDepthGain(done, 0.5))).toBe(2);
    expect(standOfViews(setDepthGain(done, 0.5))).toBe('stale');
    expect(missing(setStage(done, { stops: 1 }))).toBe(3);
    expect(missing(setStage(done, { ground: '#000000' }))).toBe(3);
    expect(missing(setStage(done, { fingerprint: 'another' }))).toBe(3);
    // Under another id in another studio it is the same scene.
    expect(missing(setStage(done, { sceneId: 'scene-2' }))).toBe(0);
  });

  test('an animation runs from its first moment to its last', () => {
    expect([0, 1, 2].map((view) => secondsAt(view, 3, 4))).toEqual([0, 2, 4]);
    expect(secondsAt(0, 1, 4)).toBe(0);
  });

  test('the scene is among the files of the job', () => {
    expect(pixelIdsOf(staged)).toContain('scene-1');
    expect(viewsWanted(newJob())).toEqual([]);
  });
});
