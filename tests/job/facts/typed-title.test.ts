/** A typed title: its stated millimetres whatever the print and its depth, one frame that comes and goes with it. */
import fc from 'fast-check';
import * as v from 'valibot';
import { describe, expect, test } from 'vitest';
import { moveTyped, putTyped } from '../../../src/job/edits/typed.ts';
import { ribsAcross, sequenceOf } from '../../../src/job/facts/sheet.ts';
import { slotPicturesOf } from '../../../src/job/facts/slot-pictures.ts';
import {
  setTitle,
  smallestCapMm,
  titleAreaOf,
  titleShift,
  typedPastMm,
} from '../../../src/job/facts/title.ts';
import { titleFindings } from '../../../src/job/findings/title.ts';
import type { Frame, Job } from '../../../src/job/schema/job.ts';
import { jobSchema, newJob } from '../../../src/job/schema/job.ts';
import type { Typed } from '../../../src/job/schema/typed.ts';

const frameOf = (id: string, more: Partial<Frame> = {}): Frame => ({
  id,
  name: `${id}.png`,
  byteLength: 1,
  widthPx: 800,
  heightPx: 1000,
  kind: 'PNG',
  sceneLinear: false,
  meanLight: 0.5,
  ...more,
});

const typed: Typed = {
  text: 'Kingfisher',
  face: 'Bitter',
  weight: 700,
  capMm: 12,
  colour: '#ffffff',
  outlineMm: 0,
  outlineColour: '#000000',
  align: 'middle',
  rightMm: 0,
  downMm: 60,
  pxPerMm: 12,
};
const letters = (change: Partial<Typed> = {}, id = 't') =>
  frameOf(id, { widthPx: 1200, heightPx: 240, typed: { ...typed, ...change } });

const jobOf = (change: Partial<Typed> = {}, step = 0, more: Partial<Job> = {}): Job => ({
  ...newJob(),
  viewSlots: 5,
  frames: [frameOf('a'), frameOf('b'), letters(change)],
  title: { frame: 't', step },
  ...more,
});

/** Where the picture lies on the print, mm from its left and top edge: by the area's own meaning alone. */
const lies = (job: Job) => {
  const frame = job.frames.at(-1) as Frame;
  const area = titleAreaOf(job, frame);
  const mmPerPx = job.print.widthMm / area.width;
  const left = -area.left * mmPerPx;
  const top = (-area.top * job.print.heightMm) / area.height;
  return { left, top, width: frame.widthPx * mmPerPx, height: frame.heightPx * mmPerPx };
};

describe('a typed title', () => {
  test('lies where it says and keeps its size, on any print, at any depth', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -60, max: 60, noNaN: true }),
        fc.double({ min: -60, max: 60, noNaN: true }),
        fc.double({ min: -2, max: 2, noNaN: true }),
        fc.double({ min: 30, max: 900, noNaN: true }),
        (rightMm, downMm, step, widthMm) => {
          const print = { ...newJob().print, widthMm };
          const job = jobOf({ rightMm, downMm }, step, { print });
          const { left, top, width, height } = lies(job);
          expect(width).toBeCloseTo(100, 6);
          expect(height).toBeCloseTo(20, 6);
          expect(left + width / 2).toBeCloseTo(widthMm / 2 + rightMm, 6);
          expect(top + height / 2).toBeCloseTo(print.heightMm / 2 + downMm, 6);
        },
      ),
    );
  });

  test('slides from view to view by its step, as a picture does', () => {
    const { mixes, slots, pictures } = slotPicturesOf(jobOf({}, -0.5));
    const shifts = slots.map((slot) => mixes[slot - pictures.length]?.over?.shift);
    expect(shifts).toEqual([1, 0.5, 0, -0.5, -1]);
  });

  test('takes the place of what was typed before, and goes with its picture', () => {
    const bare: Job = { ...newJob(), frames: [frameOf('a')] };
    const first = putTyped(bare, letters());
    expect(first.title).toEqual({ frame: 't', step: 0 });
    expect(sequenceOf(first).map(({ id }) => id)).toEqual(['a']);
    const deep = setTitle(first, { frame: 't', step: 0.5 });
    const second = putTyped(deep, letters({ text: 'Heron' }, 'u'));
    expect(second.frames.map(({ id }) => id)).toEqual(['a', 'u']);
    expect(second.title).toEqual({ frame: 'u', step: 0.5 });
    expect(setTitle(second, undefined)).toEqual({ ...bare, frames: [frameOf('a')] });
    // A picture that was added stays when it is no title any more.
    const picture = setTitle(jobOf(), { frame: 'b', step: 0 });
    expect(picture.frames.map(({ id }) => id)).toEqual(['a', 'b']);
    expect(setTitle(picture, undefined).frames.map(({ id }) => id)).toEqual(['a', 'b']);
  });

  test('moves without being drawn anew', () => {
    const job = jobOf();
    const [, edit] = moveTyped(job.frames[2] as Frame, { rightMm: 7 });
    const moved = edit(job);
    expect(moved.frames[2]?.id).toBe('t');
    expect(lies(moved).left - lies(job).left).toBeCloseTo(7, 6);
  });

  test('letters need seven ribs, and more where they stand deep: relation 6', () => {
    // 60 LPI: 7 × 25.4 / 60 mm.
    expect(smallestCapMm(jobOf())).toBeCloseTo(2.9633, 3);
    expect(smallestCapMm(jobOf({}, -1.5))).toBeCloseTo(1.5 * 2.9633, 3);
    expect(smallestCapMm(jobOf({}, -1.5, { ribs: 'lying' }))).toBeCloseTo(2.9633, 3);
    const ids = (job: Job) => titleFindings(job).map(({ id }) => id);
    expect(ids(jobOf())).toEqual([]);
    expect(ids(jobOf({ capMm: 2 }))).toEqual(['title-too-small']);
    expect(ids(jobOf({ instead: 'sans-serif' }))).toEqual(['title-other-face']);
    expect(ids(jobOf({ text: 'Кулик' }))).toEqual(['title-other-face']);
  });

  test('is said to leave the print by as much as it does, in the view where it does most', () => {
    // 100 mm wide on 203.2 mm: past the edge from 51.6 mm to the right.
    const job = jobOf({ rightMm: 55 }, 1);
    const slide = titleShift(job, 4) * job.lens.pitchMm;
    expect(slide).toBeCloseTo(2 * (25.4 / 60), 6);
    expect(typedPastMm(job)).toBeCloseTo(55 + 50 - 203.2 / 2 + slide, 6);
    expect(typedPastMm(jobOf())).toBe(0);
    expect(titleFindings(job).map(({ id }) => id)).toEqual(['title-past-print']);
    expect(ribsAcross(job)).toBeGreaterThan(0);
  });

  test('jobs without one open unchanged; nonsense is refused', () => {
    const before: Job = { ...jobOf(), frames: [frameOf('a'), frameOf('b'), frameOf('t')] };
    expect(v.parse(jobSchema, structuredClone(before))).toEqual(before);
    expect(v.parse(jobSchema, structuredClone(jobOf()))).toEqual(jobOf());
    for (const wrong of [{ text: ' \n' }, { colour: 'red' }, { capMm: 0 }, { weight: 1.5 }])
      expect(v.safeParse(jobSchema, jobOf(wrong)).success, JSON.stringify(wrong)).toBe(false);
  });
});
