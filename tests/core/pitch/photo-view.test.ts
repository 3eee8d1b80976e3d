/** Where the camera looks under the ribs of a strip, above and below its own height. */
import { describe, expect, it } from 'vitest';
import { viewThrough } from '../../../src/core/pitch/photo/view.ts';
import { mm } from '../../../src/core/units/units.ts';

describe('a lens whose radius is not known', () => {
  // 60 LPI, in focus: R = t (n − 1) / n.
  const bare = { pitchMm: mm(25.4 / 60), thicknessMm: mm(0.84), index: 1.5685 };
  const radiusMm = mm((0.84 * 0.5685) / 1.5685);
  const seen = viewThrough(bare);

  it('keeps its one radius for lines of sight that lean along the ribs', () => {
    const known = viewThrough({ ...bare, radiusMm });
    for (const b of [0, 0.2, 0.4, 0.55])
      expect(seen.beside(0.3, b)).toBeCloseTo(known.beside(0.3, b), 9);
  });
});
