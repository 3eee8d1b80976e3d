/** Which frames of a clip are taken. */
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readPicks, sayPicks, spreadEvenly } from '../../../src/core/frames/clip-picks.ts';

describe('frames spread over a stretch', () => {
  it('begin and end with it, rise, and lie at most a frame from even', () => {
    fc.assert(
      fc.property(
        fc.nat(1000),
        fc.nat(1000),
        fc.integer({ min: 2, max: 60 }),
        (first, more, count) => {
          const last = first + more + 1;
          const frames = spreadEvenly(first, last, count);
          expect(frames).toHaveLength(Math.min(count, more + 2));
          expect([frames[0], frames.at(-1)]).toEqual([first, last]);
          frames.forEach((frame, i) => {
            if (i > 0) expect(frame).toBeGreaterThan(frames[i - 1]!);
            const even = first + (i * (last - first)) / (frames.length - 1);
            expect(Math.abs(frame - even)).toBeLessThanOrEqual(0.5);
          });
        },
      ),
    );
  });

  it('are one, or none, where there is no more', () => {
    expect(spreadEvenly(3, 3, 12)).toEqual([3]);
    expect(spreadEvenly(0, 9, 1)).toEqual([0]);
    expect(spreadEvenly(0, -1, 12)).toEqual([]);
  });
});

describe('frames as they are typed', () => {
  it('come back as they were said', () => {
    fc.assert(
      fc.property(fc.uniqueArray(fc.nat(499), { minLength: 1, maxLength: 40 }), (frames) => {
        const rising = [...frames].sort((a, b) => a - b);
        expect(readPicks(sayPicks(frames), 500)).toEqual(rising);
      }),
    );
  });

  it('may be stretches, in any order and more than once', () => {
    expect(readPicks('9, 3-5; 4  1 – 2', 9)).toEqual([0, 1, 2, 3, 4, 8]);
  });

  it.each(['', ',', '0', '10', '5-3', '2-', '-2', '1.5', 'two', '1e3', '99999999999'])(
    'are refused with a sentence: “%s”',
    (text) => expect(readPicks(text, 9)).toMatch(/\.$/),
  );
});
