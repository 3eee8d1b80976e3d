/** Where a flip changes in degrees and millimetres, by optics relation 4. */
import { describe, expect, test } from 'vitest';
import { reverseFrames } from '../../../src/job/edits/consequences.ts';
import { chooseRecipe, setAhead, setPictureCount } from '../../../src/job/edits/recipe.ts';
import {
  changeAtDegrees,
  flipTurnsOf,
  furthestDegrees,
  sayInPlace,
  shownAhead,
} from '../../../src/job/facts/flip-changes.ts';
import { sheetSpecOf } from '../../../src/job/facts/sheet.ts';
import type { Job } from '../../../src/job/schema/job.ts';
import { newJob } from '../../../src/job/schema/job.ts';
import { nameAhead, sayTurn } from '../../../src/job/words/ahead.ts';
import { usualGapMm } from '../../golden/traced-by-bench.ts';

const frames = ['a', 'b', 'c', 'd'].map((id) => ({
  id,
  name: `${id}.png`,
  byteLength: 1,
  widthPx: 1000,
  heightPx: 800,
  kind: 'PNG',
  sceneLinear: false,
  meanLight: 0.5,
}));
const flip = (change: Partial<Job> = {}): Job =>
  chooseRecipe({ ...newJob(), frames, ...change }, 'flip');

/** p D / g′ with g′ by the bench of tests/golden, 400 mm. */
const ZONE_MM = ((25.4 / 60) * 400) / usualGapMm;

describe('the changes of a flip', () => {
  test('lie in the middle and at the end of the zone, in the head’s way and in degrees', () => {
    const [end, middle] = flipTurnsOf(flip());
    expect(middle).toMatchObject({ from: 0, to: 1 });
    expect(middle?.headMm).toBeCloseTo(0, 6);
    expect(end?.headMm).toBeCloseTo(-ZONE_MM / 2, 0);
    expect(end?.degrees).toBeCloseTo((-Math.atan(ZONE_MM / 2 / 400) * 180) / Math.PI, 1);
  });

  test('move to a typed angle, and the dots under the ribs the other way', () => {
    const job = flip();
    const ahead = changeAtDegrees(job, 0, 10);
    const moved = setAhead(job, ahead!);
    const turn = flipTurnsOf(moved).find(({ from }) => from === 0);
    expect(turn?.degrees).toBeCloseTo(10, 9);
    const share = (400 * Math.tan(Math.PI / 18)) / ZONE_MM;
    const { offsetMm, viewingPitchMm } = sheetSpecOf(moved);
    // The end of the zone is in view and guarded: of twelve slots 0 … 3 and 6 … 9 are pictures, and the change between
    // them lies a twelfth left of the middle of the slots.
    const { recipe } = moved;
    expect(recipe?.kind === 'flip' && recipe.guardSlots).toBe(2);
    expect(offsetMm / viewingPitchMm).toBeCloseTo(-share - 1 / 12, 3);
    expect(shownAhead(moved).show).toBe('moved');
    expect(sayInPlace(moved)).toMatch(/what the proof shows/);
  });

  test('are not put outside the zone, where all repeats', () => {
    expect(furthestDegrees(flip())).toBeCloseTo((Math.atan(ZONE_MM / 800) * 180) / Math.PI, 1);
    expect(changeAtDegrees(flip(), 0, 40)).toBeUndefined();
    expect(changeAtDegrees({ ...newJob(), frames }, 0, 3)).toBeUndefined();
  });

  test('a choice that goes with its picture gives way to what is so', () => {
    const four = setPictureCount(flip(), 4);
    const last = setAhead(four, { show: 'picture', at: 3 });
    expect(sayInPlace(last)).toBe('picture 4 shows');
    const two = setPictureCount(last, 2);
    expect(nameAhead(shownAhead(two))).toBe('The change from 1 to 2');
    expect(sayInPlace({ ...newJob(), frames })).toBe('the middle view shows');
  });

  test('the same picture lies straight ahead when the frames are reversed', () => {
    const lit = setAhead(flip(), { show: 'picture', at: 0 });
    expect(sayInPlace(reverseFrames(lit))).toBe('picture 2 shows');
  });

  test('are said by side', () => {
    const turn = { from: 0, to: 1, degrees: -7.14, headMm: -50.2 };
    expect(sayTurn(turn, 'upright', 'mm')).toBe('1 to 2 at 7.1° left (head 50 mm)');
    expect(sayTurn({ ...turn, degrees: 7.1 }, 'lying', 'mm')).toBe(
      '1 to 2 at 7.1° below (head 50 mm)',
    );
    expect(sayTurn({ ...turn, degrees: 0 }, 'upright', 'mm')).toBe('1 to 2 straight ahead');
  });
});
