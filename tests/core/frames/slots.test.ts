import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { saySlots, slotFrames, tidySlots } from '../../../src/core/frames/slots.ts';

const count = fc.integer({ min: 1, max: 200 });

describe('frames over slots', () => {
  test('as many frames as slots: one each, in order', () => {
    fc.assert(fc.property(count, (n) => slotFrames(n, n).every((frame, slot) => frame === slot)));
  });

  test('more frames than slots: first and last kept, steps as even as whole numbers allow', () => {
    fc.assert(
      fc.property(count, fc.integer({ min: 2, max: 100 }), (more, slots) => {
        const frames = slots + more;
        const shown = slotFrames(frames, slots);
        const steps = shown.slice(1).map((frame, i) => frame - (shown[i] as number));
        expect(shown[0]).toBe(0);
        expect(shown.at(-1)).toBe(frames - 1);
        expect(Math.max(...steps) - Math.min(...steps)).toBeLessThanOrEqual(1);
      }),
    );
  });

  test('fewer frames than slots: all shown, in order, held for equal times to within one slot', () => {
    fc.assert(
      fc.property(count, count, (frames, more) => {
        const shown = slotFrames(frames, frames + more);
        const held = Array.from(
          { length: frames },
          (_, frame) => shown.filter((other) => other === frame).length,
        );
        expect([...shown].sort((a, b) => a - b)).toEqual(shown);
        expect(Math.min(...held)).toBeGreaterThanOrEqual(1);
        expect(Math.max(...held) - Math.min(...held)).toBeLessThanOrEqual(1);
      }),
    );
  });

  test('two frames over twelve slots: a flip, six slots each', () => {
    expect(slotFrames(2, 12)).toEqual([0, 0, 0, 0, 0, 0, 1, 1, 1, 1, 1, 1]);
  });

  test('one slot shows the middle frame; nothing shows nothing', () => {
    expect(slotFrames(5, 1)).toEqual([2]);
    expect(slotFrames(0, 4)).toEqual([]);
    expect(slotFrames(4, 0)).toEqual([]);
  });
});

describe('a choice by hand', () => {
  test('keeps its length with the slots', () => {
    expect(tidySlots(['a', '', 'b'], ['a', 'b'], 2)).toEqual(['a', '']);
    expect(tidySlots(['a'], ['a'], 3)).toEqual(['a', '', '']);
  });

  test('lets go of frames that are gone, and of itself when none is left', () => {
    expect(tidySlots(['a', 'b'], ['b'], 2)).toEqual(['', 'b']);
    expect(tidySlots(['a', 'a'], ['b'], 2)).toBeUndefined();
    expect(tidySlots(['', 'a'], ['a'], 1)).toBeUndefined();
    expect(tidySlots(undefined, ['a'], 2)).toBeUndefined();
  });
});

describe('slots in words', () => {
  test('runs are drawn together and counted from 1', () => {
    expect(saySlots([0, 1, 2, 5])).toBe('1–3, 6');
    expect(saySlots([4])).toBe('5');
    expect(saySlots([])).toBe('');
  });
});
