/** Moving the key plane by sliding frames, seen in the frames as the weave gets them. */
import { describe, expect, test } from 'vitest';
import { reduceFrame } from '../../../src/core/weave/reduce.ts';
import { reverseFrames, setKeyShift, setRibs } from '../../../src/job/edits/consequences.ts';
import type { Frame, Job } from '../../../src/job/schema/job.ts';
import { newJob } from '../../../src/job/schema/job.ts';
import { areaOf, printedAreaOf, ribsAcross, sheetSpecOf } from '../../../src/job/facts/sheet.ts';

const [WIDTH, HEIGHT] = [480, 600];
const frames: Frame[] = Array.from({ length: 5 }, (_, index) => ({
  id: `f${index}`,
  name: `f${index}.png`,
  byteLength: 1,
  widthPx: WIDTH,
  heightPx: HEIGHT,
  kind: 'PNG',
  sceneLinear: false,
  meanLight: 0.5,
}));
const STEP = 0.6;
const jobWith = (change: Partial<Job> = {}): Job => ({
  ...newJob(),
  print: { widthMm: 203.2, heightMm: 254, viewingDistanceMm: 400 },
  viewSlots: 5,
  frames,
  ...change,
});

/** A smooth picture in linear light, displaced across by whole or part pixels: known to the last bit. */
const scene = (shiftPx: number, upright: boolean) => {
  const data = new Uint16Array(WIDTH * HEIGHT * 3);
  for (let y = 0; y < HEIGHT; y += 1)
    for (let x = 0; x < WIDTH; x += 1) {
      const across = (upright ? x : y) - shiftPx;
      const along = upright ? y : x;
      const value =
        30000 + 12000 * Math.sin(across / 9) * Math.cos(along / 31) + 9000 * Math.sin(across / 23);
      data.fill(value, (y * WIDTH + x) * 3, (y * WIDTH + x) * 3 + 3);
    }
  return { widthPx: WIDTH, heightPx: HEIGHT, channels: 3, encoding: 'light16', data } as const;
};

/** Frame `index` as prepared, a thing of the scene moving by STEP lenticules from frame to frame. */
const prepared = (job: Job, index: number) => {
  const upright = job.ribs === 'upright';
  const pxPerRib = (upright ? WIDTH : HEIGHT) / ribsAcross(job);
  const source = scene(STEP * (index - 2) * pxPerRib, upright);
  const area = printedAreaOf(job, frames[index] as Frame);
  const reduced = reduceFrame(source, sheetSpecOf(job), area, { alongSamples: 200 });
  return { ...reduced, upright };
};

/** Two lenticules at each end are left out: a sample there is cut short by the frame's edge. */
const largestDifference = (
  a: ReturnType<typeof prepared>,
  b: ReturnType<typeof prepared>,
): number => {
  let most = 0;
  for (let i = 0; i < a.pixels.length; i += 1) {
    const pixel = Math.floor(i / 3);
    const [column, row] = [pixel % a.columns, Math.floor(pixel / a.columns)];
    const across = a.upright ? column : row;
    if (across < 2 || across > (a.upright ? a.columns : a.rows) - 3) continue;
    most = Math.max(most, Math.abs((a.pixels[i] as number) - (b.pixels[i] as number)));
  }
  return most;
};

describe('a key plane moved by sliding frames', () => {
  test.each(['upright', 'lying'] as const)(
    'stands still in every prepared frame, under %s ribs',
    (ribs) => {
      // The room kept for the slides makes the picture a little larger: so does the scene's step.
      const before = jobWith({ ribs });
      const grown = (job: Job) => {
        const area = areaOf(job, frames[0] as Frame);
        return ribs === 'upright' ? WIDTH / area.width : HEIGHT / area.height;
      };
      let keyShift = STEP;
      for (let i = 0; i < 20; i += 1) keyShift = STEP * grown(setKeyShift(before, keyShift));
      const moved = setKeyShift(before, keyShift);
      const middle = prepared(moved, 2);
      // Linear interpolation over a wave 57 px long errs by at most 1/8 (2π/57)² of it, some 20 of 12000.
      expect(largestDifference(prepared(moved, 0), middle)).toBeLessThan(60);
      expect(largestDifference(prepared(moved, 4), middle)).toBeLessThan(60);
      // And without the slide it does not.
      expect(largestDifference(prepared(before, 0), prepared(before, 2))).toBeGreaterThan(1000);
    },
  );

  test.each([
    ['upright', 0, 0],
    ['upright', 1, 0],
    ['lying', 0, -1],
  ] as const)('shows no bare paper where the frame fills the print (%s, %i, %i)', (ribs, x, y) => {
    for (const shape of [203.2, 150, 260]) {
      const job = setKeyShift(
        jobWith({
          ribs,
          print: { widthMm: shape, heightMm: 254, viewingDistanceMm: 400 },
          placement: { mode: 'fill', shiftX: x, shiftY: y },
        }),
        1.5,
      );
      for (const frame of frames) {
        const area = printedAreaOf(job, frame);
        expect(area.left).toBeGreaterThan(-1e-9);
        expect(area.top).toBeGreaterThan(-1e-9);
        expect(area.left + area.width).toBeLessThan(WIDTH + 1e-9);
        expect(area.top + area.height).toBeLessThan(HEIGHT + 1e-9);
        expect(area.width / area.height).toBeCloseTo(shape / 254, 9);
      }
    }
  });

  test('without a slide frames lie as they did', () => {
    const job = jobWith();
    const area = printedAreaOf(job, frames[0] as Frame);
    expect(
      [area.left, area.top, area.width, area.height].map((px) => Math.round(px * 1e9) / 1e9 + 0),
    ).toEqual([0, 0, 480, 600]);
    expect(setKeyShift(setKeyShift(job, 0.5), 0)).toEqual(job);
  });

  test('turns round with the order, so that the same plane stands still', () => {
    const job = setKeyShift(jobWith(), 0.5);
    const turned = reverseFrames(job);
    for (const frame of frames)
      expect(printedAreaOf(turned, frame)).toEqual(printedAreaOf(job, frame));
    expect(reverseFrames(turned)).toEqual(job);
    expect(setRibs(job, 'lying').keyShift).toBe(0.5);
  });
});
