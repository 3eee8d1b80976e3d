/** What is seen straight ahead, and where a flip changes, in words. */
import type { Ahead } from '../../core/frames/flip-ahead.ts';
import { sayLength, trimmed } from '../../core/units/format.ts';
import type { LengthUnit } from '../../core/units/parse.ts';
import { mm } from '../../core/units/units.ts';
import type { FlipTurn } from '../facts/flip-changes.ts';
import type { Job } from '../schema/job.ts';

/** "Picture 1", "The change from 1 to 2": a choice of what is seen. */
export const nameAhead = (ahead: Ahead): string => {
  if (ahead.show === 'picture') return `Picture ${ahead.at + 1}`;
  if (ahead.show === 'change') return `The change from ${ahead.at + 1} to ${ahead.at + 2}`;
  return 'Moved by the angle';
};

/** Where it changes: "1 to 2 at 7.1° right (head 50 mm)", from left to right or from above down. */
export const sayTurn = (
  { from, to, degrees, headMm }: FlipTurn,
  ribs: Job['ribs'],
  units: LengthUnit,
): string => {
  const [less, more] = ribs === 'upright' ? ['left', 'right'] : ['above', 'below'];
  const head = sayLength(mm(Math.round(Math.abs(headMm))), units);
  const where =
    Math.abs(degrees) < 0.05
      ? 'straight ahead'
      : `at ${trimmed(Math.abs(degrees), 1)}° ${degrees < 0 ? less : more} (head ${head})`;
  return `${from + 1} to ${to + 1} ${where}`;
};
