import { describe, expect, test } from 'vitest';
import { numberedRun, sayGap, sayRepeat } from '../../../src/core/frames/gaps.ts';

const run = (...names: string[]) => numberedRun(names);
const sentences = (...names: string[]) => run(...names)?.gaps.map(sayGap) ?? [];
const numbered = (stem: string, ...numbers: number[]) =>
  numbers.map((number) => `${stem}_${String(number).padStart(2, '0')}.png`);

describe('missing numbers', () => {
  test('one missing frame is named with its neighbours', () => {
    expect(sentences(...numbered('glasshouse', 5, 6, 8, 9))).toEqual([
      'Frame 07 is missing between glasshouse_06.png and glasshouse_08.png.',
    ]);
  });

  test('two, and many, are named as a run; each run by itself', () => {
    expect(sentences(...numbered('a', 1, 2, 5, 6, 7, 12))).toEqual([
      'Frames 03 and 04 are missing between a_02.png and a_05.png.',
      'Frames 08 to 11 are missing between a_07.png and a_12.png.',
    ]);
  });

  test('numbers without leading zeros stay without', () => {
    expect(sentences('a9.png', 'a10.png', 'a12.png')).toEqual([
      'Frame 11 is missing between a10.png and a12.png.',
    ]);
  });

  test('whatever order and extension the names have', () => {
    expect(sentences('p_4.jpg', 'p_1.png', 'P_2.PNG')).toEqual([
      'Frame 3 is missing between P_2.PNG and p_4.jpg.',
    ]);
  });

  test('a complete run has no gap, wherever it starts', () => {
    expect(run(...numbered('a', 7, 8, 9))?.gaps).toEqual([]);
  });

  test('every fifth picture is a run of its own step', () => {
    const tides = run('t_0000.png', 't_0005.png', 't_0010.png', 't_0020.png');
    expect(tides?.step).toBe(5n);
    expect(tides?.gaps.map(sayGap)).toEqual([
      'Frame 0015 is missing between t_0010.png and t_0020.png.',
    ]);
  });

  test('numbers that follow no step, like clock times, miss nothing', () => {
    expect(sentences('at_0907.png', 'at_0944.png', 'at_1025.png', 'at_1120.png')).toEqual([]);
  });

  test('numbers beyond what a float can count', () => {
    const big = 9007199254740993n; // 2^53 + 1
    const names = [0n, 1n, 3n].map((more) => `s${big + more}.png`);
    expect(run(...names)?.gaps[0]?.first).toBe((big + 2n).toString());
  });
});

describe('which number counts', () => {
  test('the one that varies, not a version or a take that stays', () => {
    expect(sentences('take2_003_v07.png', 'take2_004_v07.png', 'take2_006_v07.png')).toEqual([
      'Frame 005 is missing between take2_004_v07.png and take2_006_v07.png.',
    ]);
  });

  test('strangers beside the run do not disturb it', () => {
    expect(sentences('cover.png', 'sketch_99.png', ...numbered('a', 1, 2, 4))).toEqual([
      'Frame 03 is missing between a_02.png and a_04.png.',
    ]);
  });

  test('names without a common numbering form no run', () => {
    expect(run('dawn.png', 'noon.png')).toBeUndefined();
    expect(run('a_1.png')).toBeUndefined();
    expect(run()).toBeUndefined();
  });
});

describe('repeated numbers', () => {
  test('the same number with and without a zero, and in two formats', () => {
    const repeats = run('a_6.png', 'a_7.png', 'a_07.png', 'a_8.png', 'a_8.exr')?.repeats ?? [];
    expect(repeats.map(sayRepeat)).toEqual([
      'Number 7 occurs twice: a_7.png, a_07.png.',
      'Number 8 occurs twice: a_8.exr, a_8.png.',
    ]);
  });

  test('the very same name twice is no matter of numbering', () => {
    expect(run('a_1.png', 'a_2.png', 'a_2.png')?.repeats).toEqual([]);
  });
});
