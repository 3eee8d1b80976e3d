/** Room in words: three figures at most, in the unit that suits. */
import { expect, test } from 'vitest';
import { sayBytes } from '../../../src/core/units/format.ts';

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
