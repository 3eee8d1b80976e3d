/** The arrow on strip and wedge: which way they go through the printer. */
import type { Ribs } from '../weave/sheet-spec.ts';
import type { InkMm } from './lettering.ts';

/** Side of the square that the arrow fills, mm. */
const FEED_ARROW_MM = 7;

/**
 * Points to the top edge of the file, whichever way the ribs run.
 * @param across, along the first corner of its square, mm
 */
export const feedArrow = (ribs: Ribs, across: number, along: number): InkMm[] => {
  const [size, shaft, step] = [FEED_ARROW_MM, 1.6, 0.25];
  const ink: InkMm[] = [];
  for (let from = 0; from < size; from += step) {
    const width = from < size / 2 ? Math.max(step, from * 2) : shaft;
    const aside = (size - width) / 2;
    ink.push(
      ribs === 'upright'
        ? { across: across + aside, along: along + from, width, height: step }
        : { across: across + from, along: along + aside, width: step, height: width },
    );
  }
  return ink;
};
