import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { shortNames } from '../../../src/core/frames/names.ts';
import {
  compareNames,
  inNaturalOrder,
  insertInOrder,
  isInNaturalOrder,
} from '../../../src/core/frames/order.ts';

const named = (...names: string[]) => names.map((name) => ({ name }));
const sorted = (...names: string[]) => inNaturalOrder(named(...names)).map(({ name }) => name);

describe('natural order against published examples', () => {
  test.each([
    // Pool, "Natural Order String Comparison", the README of sourcefrog/natsort.
    ['three numbered memos', ['rfc1.txt', 'rfc822.txt', 'rfc2086.txt']],
    // README of DanCouper/natural_sort, which follows Pool's algorithm.
    ['numbers between text', ['x2-g8', 'x2-y7', 'x2-y08', 'x8-y8']],
    ['one prefix', ['a', 'a0', 'a1', 'a1a', 'a1b', 'a2', 'a05c', 'a10', 'a20']],
    // README of xolox/python-naturalsort, in agreement with GNU `sort -V`.
    [
      'dotted numbers',
      [
        'package-1.8.1-r26',
        'package-1.8.1-r30',
        'package-2.0-r2',
        'package-2.0-r7',
        'package-2.0-r11',
      ],
    ],
    // UTS #35, collation setting "kn" (memory).
    ['digits by their value', ['A-21', 'A-123']],
  ])('%s', (_, expected) => {
    expect(sorted(...expected)).toEqual(expected);
    expect(sorted(...[...expected].reverse())).toEqual(expected);
  });
});

describe('natural order', () => {
  test('whole numbers of any length a file name can hold, against BigInt', () => {
    const digits = fc.stringMatching(/^[0-9]{1,120}$/);
    fc.assert(
      fc.property(digits, digits, (a, b) => {
        fc.pre(BigInt(a) !== BigInt(b));
        const order = compareNames(`pose_${a}.png`, `pose_${b}.png`);
        return Math.sign(order) === (BigInt(a) < BigInt(b) ? -1 : 1);
      }),
    );
  });

  test('is a total order: only the same text is equal, and it can be turned round', () => {
    const name = fc.stringMatching(/^[aAé_0-9./]{1,8}$/);
    fc.assert(
      fc.property(name, name, (a, b) => {
        const [there, back] = [compareNames(a, b), compareNames(b, a)];
        return (there === 0) === (a === b) && Math.sign(there) === -Math.sign(back);
      }),
    );
    fc.assert(
      fc.property(name, name, name, (a, b, c) => {
        const [x, y, z] = [a, b, c].sort(compareNames) as [string, string, string];
        return compareNames(x, y) <= 0 && compareNames(y, z) <= 0 && compareNames(x, z) <= 0;
      }),
    );
  });

  test('case does not separate', () => {
    expect(sorted('pose_3.png', 'Pose_2.PNG', 'POSE_1.png')).toEqual([
      'POSE_1.png',
      'Pose_2.PNG',
      'pose_3.png',
    ]);
  });

  test('leading zeros settle a tie and nothing else', () => {
    expect(sorted('p_010', 'p_07', 'p_7', 'p_8')).toEqual(['p_7', 'p_07', 'p_8', 'p_010']);
  });

  test('the extension does not take part before the name ends', () => {
    // By plain text `-` comes before `.`, which would put the second first.
    expect(sorted('frame-2.png', 'frame.png')).toEqual(['frame.png', 'frame-2.png']);
    expect(sorted('a_2.exr', 'a_10.png', 'a_1.tif')).toEqual(['a_1.tif', 'a_2.exr', 'a_10.png']);
  });

  test('a number after the last dot is a number, not an extension', () => {
    expect(sorted('bloom.0010', 'bloom.0009', 'bloom.0100')).toEqual([
      'bloom.0009',
      'bloom.0010',
      'bloom.0100',
    ]);
  });

  test('folders come first, each in natural order, what lies deeper after what lies above', () => {
    expect(
      sorted('take 10/a_1.png', 'take 2/a_2.png', 'take 2/far/a_1.png', 'take 2/a_10.png'),
    ).toEqual(['take 2/a_2.png', 'take 2/a_10.png', 'take 2/far/a_1.png', 'take 10/a_1.png']);
  });
});

describe('inserting newcomers', () => {
  test('to their natural places while the list is in natural order', () => {
    const list = insertInOrder(named('f_1', 'f_3', 'f_10'), named('f_11', 'f_2'));
    expect(list.map(({ name }) => name)).toEqual(['f_1', 'f_2', 'f_3', 'f_10', 'f_11']);
  });

  test('behind a list that somebody arranged, sorted among themselves', () => {
    const list = insertInOrder(named('f_3', 'f_1'), named('f_11', 'f_2'));
    expect(list.map(({ name }) => name)).toEqual(['f_3', 'f_1', 'f_2', 'f_11']);
  });

  test('an empty list and a list with equal names are in order', () => {
    expect(isInNaturalOrder([])).toBe(true);
    expect(isInNaturalOrder(named('a', 'a'))).toBe(true);
    expect(isInNaturalOrder(named('a_10', 'a_9'))).toBe(false);
  });
});

describe('short names', () => {
  test('bare where that tells them apart', () => {
    expect(shortNames(['set/near/a.png', 'set/far/b.png'])).toEqual(['a.png', 'b.png']);
  });

  test('with the folders that differ where it does not', () => {
    expect(shortNames(['set/left/p_1.png', 'set/right/p_1.png', 'set/right/p_2.png'])).toEqual([
      'left/p_1.png',
      'right/p_1.png',
      'right/p_2.png',
    ]);
  });

  test('the same path twice, and nothing at all', () => {
    expect(shortNames(['a/p.png', 'a/p.png'])).toEqual(['p.png', 'p.png']);
    expect(shortNames([])).toEqual([]);
  });
});
