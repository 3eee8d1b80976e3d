import fc from 'fast-check';
import { expect, test } from 'vitest';
import { lightOfGains } from '../../../src/core/colour/light-of-gains.ts';
import { gainsOf } from '../../../src/core/colour/picture-light.ts';

/** Luminance of linear light, ITU-R BT.709. */
const luminance = (rgb: readonly number[]) =>
  0.2126 * rgb[0]! + 0.7152 * rgb[1]! + 0.0722 * rgb[2]!;

const stops = fc.double({ min: -4, max: 4, noNaN: true });

test('a stop more doubles the luminance of grey, whatever its colour becomes', () => {
  fc.assert(
    fc.property(stops, stops, stops, (bright, warmth, tint) => {
      const grey = luminance(gainsOf({ stops: bright, warmth, tint }));
      expect(Math.log2(grey)).toBeCloseTo(bright, 9);
    }),
  );
});

test('warmth is red over blue, tint green over the two of them, in stops', () => {
  const [red, green, blue] = gainsOf({ stops: 0.4, warmth: 1, tint: -0.5 });
  expect(red / blue).toBeCloseTo(2, 9);
  expect(green / Math.sqrt(red * blue)).toBeCloseTo(2 ** -0.5, 9);
  expect(gainsOf({ stops: 0, warmth: 0, tint: 0 })).toEqual([1, 1, 1]);
});

test('gains come back from what they are called', () => {
  const gain = fc.double({ min: 0.05, max: 20, noNaN: true });
  fc.assert(
    fc.property(gain, gain, gain, (...gains) => {
      gainsOf(lightOfGains(gains)).forEach((value, channel) =>
        expect(value / gains[channel]!).toBeCloseTo(1, 9),
      );
    }),
  );
});
