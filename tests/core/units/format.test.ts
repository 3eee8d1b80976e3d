/** Room in words, three figures at most, in the unit that suits; figures with their uncertainty. */
import { expect, test } from 'vitest';
import { sayBytes, sayDoubted, sayDoubtedLength } from '../../../src/core/units/format.ts';

test.each([
  [0, '0 kB'],
  [1, '1 kB'],
  [999_000, '999 kB'],
  [2_560_000, '2.6 MB'],
  [38_400_000, '38.4 MB'],
  [338_400_000, '338 MB'],
  [10_700_000_000, '10.7 GB'],
])('%i bytes are %s', (bytes, said) => {
  expect(sayBytes(bytes)).toBe(said);
});

test.each([
  [216.821, 21.933, '217 ±22'],
  [2168.21, 219.33, '2170 ±220'],
  [59.8765, 0.0312, '59.877 ±0.031'],
  [59.8765, 0.31, '59.88 ±0.31'],
  [-0.4, 3.2, '−0.4 ±3.2'],
  // Known to be exact: as fine as the field shows.
  [0.12345, 0, '0.123 ±0'],
])('%d ±%d is said to the digits that its ± warrants', (value, plusMinus, said) => {
  expect(sayDoubted({ value, plusMinus }, 3)).toBe(said);
});

test('a length with its ± goes by the unit it is said in', () => {
  const length = { value: 216.821, plusMinus: 21.933 };
  expect(sayDoubtedLength(length, 'mm')).toBe('217 ±22 mm');
  expect(sayDoubtedLength(length, 'in')).toBe('8.54 ±0.86 in');
});
