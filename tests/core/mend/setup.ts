/** The print that most tests of Mend look at, and how it is made faulty. */
import type { Faults } from '../../../src/core/mend/fault.ts';
import { noFaults } from '../../../src/core/mend/fault.ts';
import { mm } from '../../../src/core/units/units.ts';
import { benchGap, benchGapAhead } from '../../golden/traced-by-bench.ts';

export const lens = { pitchMm: mm(25.4 / 60), thicknessMm: mm(0.826), index: 1.57 };
/** Its gaps by the bench of tests/golden, which traces on its own: of a moving eye, and straight ahead. */
const bench = { ...lens, radiusMm: (0.826 * 0.57) / 1.57 };
export const gapMm = benchGap(bench);
export const gapAheadMm = benchGapAhead(bench);
const sheetOf = (ribs: 'upright' | 'lying') =>
  ({
    widthDots: ribs === 'upright' ? 5760 : 7200,
    heightDots: ribs === 'upright' ? 7200 : 5760,
    acrossDpi: 720,
    alongDpi: 720,
    ribs,
    viewingPitchMm: lens.pitchMm * (1 + gapAheadMm / 400),
    lensPitchMm: lens.pitchMm,
    offsetMm: 0,
    viewSlots: 12,
    columns: 'blended',
  }) as const;
export const setup = { lens, sheet: sheetOf('upright'), distanceMm: 400 };
export const lying = { ...setup, sheet: sheetOf('lying') };
export const faulty = (faults: Partial<Faults>) => ({ ...noFaults, ...faults });
