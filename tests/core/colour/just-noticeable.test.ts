import { expect, test } from 'vitest';
import { PAPER_WHITE, noticeableIndex } from '../../../src/core/colour/just-noticeable.ts';

/**
 * The function itself, DICOM PS3.14 equation (7-1), which gives the luminance of an index; the coefficients are from
 * memory, and independent of those of the index.
 */
const luminanceOf = (index: number): number => {
  const ln = Math.log(index);
  const above = [-1.3011877, 8.0242636e-2, 1.3646699e-1, -2.5468404e-2, 1.3635334e-3];
  const below = [1, -2.5840191e-2, -1.0320229e-1, 2.874562e-2, -3.1978977e-3, 1.2992634e-4];
  const sum = (coefficients: number[]) =>
    coefficients.reduce((total, coefficient, power) => total + coefficient * ln ** power, 0);
  return 10 ** (sum(above) / sum(below));
};

test('the ends are those of the standard: 0.05 and 3993.4 cd/m²', () => {
  expect(luminanceOf(1)).toBeCloseTo(0.05, 3);
  expect(luminanceOf(1023) / 3993.4).toBeCloseTo(1, 3);
  expect(noticeableIndex(0.05)).toBeCloseTo(1, 0);
  expect(Math.abs(noticeableIndex(3993.4) - 1023)).toBeLessThan(0.5);
});

test('between them both formulas of the standard agree within half a step', () => {
  for (let index = 1; index <= 1023; index += 7)
    expect(Math.abs(noticeableIndex(luminanceOf(index)) - index), `${index}`).toBeLessThan(0.5);
});

test('on paper in a lit room a step is about a hundredth of the light, and less is not seen', () => {
  // Barten's threshold for a grating of 4 cycles a degree on 100 cd/m²: contrast near 0.6 % (PS3.14, annex A).
  const step = noticeableIndex(PAPER_WHITE) - noticeableIndex(PAPER_WHITE * 0.99);
  expect(step).toBeGreaterThan(0.5);
  expect(step).toBeLessThan(2);
});
