/** Words narrow the wall, and colours tell apart what looks alike. */
import { describe, expect, test } from 'vitest';
import { linearOfLch } from '../../../src/core/colour/view-colour.ts';
import { code8OfLinear } from '../../../src/core/colour/srgb.ts';
import { drawSeen, seenFrames, seenScene } from '../../../src/core/mend/seen.ts';
import { SIGHTS } from '../../../src/core/mend/sights.ts';
import type { SymptomId } from '../../../src/core/mend/symptoms.ts';
import { SYMPTOMS } from '../../../src/core/mend/symptoms.ts';
import { withViewColours } from '../../../src/core/mend/view-colours.ts';
import { setup } from './setup.ts';

describe('words first', () => {
  test('every picture can be reached by words, and no words leave more than four', () => {
    const named = SIGHTS.flatMap(({ symptoms }) => symptoms);
    expect(new Set(named)).toEqual(new Set(SYMPTOMS.map(({ id }) => id)));
    for (const { symptoms } of SIGHTS) {
      expect(symptoms.length).toBeGreaterThanOrEqual(3);
      expect(symptoms.length).toBeLessThanOrEqual(4);
    }
  });
});

/** CSS Color 4 gives oklch(62.796% 0.25768 29.234) for red, and white is lightness 1. */
test('colours come out of OKLCh as CSS Color 4 says', () => {
  const white = linearOfLch({ lightness: 1, chroma: 0, hue: 0 });
  for (const light of white) expect(light).toBeCloseTo(1, 4);
  const red = linearOfLch({ lightness: 0.62796, chroma: 0.25768, hue: 29.234 });
  [1, 0, 0].forEach((light, at) => expect(red[at]).toBeCloseTo(light, 3));
});

describe('view numbers as colours', () => {
  const [columns, rows] = [40, 50];
  // All frames alike, as neighbouring views of a flat scene are: the picture alone tells nothing.
  const grey = { columns: 2, rows: 2, pixels: new Uint8Array(16).fill(128) };
  const frames = seenFrames(Array<typeof grey>(12).fill(grey), setup.sheet, columns, rows);
  const draw = (id: SymptomId, of: typeof frames) => {
    const { sample } = SYMPTOMS.find((symptom) => symptom.id === id)!;
    return drawSeen(seenScene(setup, sample(setup), of, { spot: 0, dot: 0 }), 0);
  };
  const apart = (a: Uint8ClampedArray, b: Uint8ClampedArray) =>
    a.reduce((sum, value, at) => sum + Math.abs(value - b[at]!), 0) / a.length;
  const alike: readonly SymptomId[] = ['too-coarse', 'too-fine', 'skewed-left', 'skewed-right'];

  test('coarse, fine and both skews look alike without them and differ with them', () => {
    const coloured = withViewColours(frames);
    for (const one of alike)
      for (const other of alike) {
        if (one === other) continue;
        expect(apart(draw(one, frames), draw(other, frames))).toBe(0);
        // More than a tenth of white, in the mean over the whole picture.
        expect(apart(draw(one, coloured), draw(other, coloured))).toBeGreaterThan(20);
      }
  });

  test('a row of colours follows the views: too coarse rises to the right, too fine falls', () => {
    const coloured = withViewColours(frames);
    const encode = code8OfLinear();
    const greenOf = (slot: number) => encode[coloured.slots[slot]![1]!]!;
    const viewAt = (pixels: Uint8ClampedArray, x: number): number => {
      const green = pixels[(25 * columns + x) * 4 + 1]!;
      const off = Array.from({ length: 12 }, (_, slot) => Math.abs(greenOf(slot) - green));
      return off.indexOf(Math.min(...off));
    };
    // Within a third of a band of the middle, where no jump lies.
    const coarse = draw('too-coarse', coloured);
    expect(viewAt(coarse, 24)).toBeGreaterThan(viewAt(coarse, 16));
    const fine = draw('too-fine', coloured);
    expect(viewAt(fine, 24)).toBeLessThan(viewAt(fine, 16));
  });
});
