/** What is said of a print that could be saved: only what can be done where it hangs. */
import { describe, expect, it } from 'vitest';
import { saySaving } from '../../../src/job/words/saving.ts';

const onWall = { distanceMm: 1500, ribs: 'upright' } as const;
const from = (distanceMm: number) =>
  saySaving({ kind: 'stand-at', distanceMm, plusMinusMm: 12 }, onWall, 'mm');

describe('looking from elsewhere', () => {
  it('is advised about as far away as the print was made for', () => {
    expect(from(1700)).toBe('Look at it from 1700 ±12 mm: from there its pitch is right.');
  });

  it('is said to be no help from an arm’s length, where the print was made for a wall', () => {
    expect(from(217)).toMatch(/^Its pitch is right from 217 ±12 mm alone/);
    expect(from(217)).toContain('made for 1500 mm');
    expect(from(217)).not.toMatch(/look at it/i);
    expect(from(6000)).not.toMatch(/look at it/i);
  });
});

it('sliding goes by the picture, since no ruler shows parts of a rib', () => {
  expect(saySaving({ kind: 'shift', mm: -0.12 }, onWall, 'mm')).toMatch(
    /^Slide the print to the left under the lens by 0\.12 mm: go by the picture/,
  );
  expect(saySaving({ kind: 'shift', mm: 0.12 }, { ...onWall, ribs: 'lying' }, 'mm')).toContain(
    'Slide the print down',
  );
});
