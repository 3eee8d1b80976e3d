import { expect, it } from 'vitest';
import { materials } from '../../../src/core/lens/materials.ts';

/**
 * Sultanova, Kasarova and Nikolov, Acta Physica Polonica A 116, 585 (2009): one-term Sellmeier fits
 * n² = 1 + B λ² / (λ² − C), λ in µm. Coefficients from memory.
 */
it.each([
  ['PMMA', 1.1819, 0.011313],
  ['Polystyrene', 1.4435, 0.020216],
  ['Polycarbonate', 1.4182, 0.021304],
])('%s has the index of the published dispersion formula at the sodium line', (name, B, C) => {
  const square = 0.5893 ** 2;
  const published = Math.sqrt(1 + (B * square) / (square - C));
  expect(materials.find((one) => one.name === name)?.index).toBeCloseTo(published, 3);
});
