/** What is said of frames that were made. */
import { expect, it } from 'vitest';
import { sayWhere } from '../../../src/job/facts/made.ts';

it('where they were filled is said by thirds of the picture, each of all that was filled', () => {
  expect(sayWhere({ across: [0.75, 0, 0.25], down: [0.75, 0, 0.25] })).toBe(
    'Of what is filled, 75 % lies in the left third, 0 % in the middle and 25 % in the right; ' +
      '75 % lies in the upper third, 0 % in the middle and 25 % in the lower.',
  );
});
