/** Paper sizes, by their standard and by their names. */
import { expect, it } from 'vitest';
import { sheetPapers } from '../../../src/core/sheet/papers.ts';

/** ISO 216:2007, tables of trimmed sizes, millimetres (from memory). */
const iso216 = {
  a0: [841, 1189],
  a1: [594, 841],
  a2: [420, 594],
  a3: [297, 420],
  a4: [210, 297],
  a5: [148, 210],
  b3: [353, 500],
  b4: [250, 353],
} as const;

it.each(Object.entries(iso216))('%s has the size of ISO 216', (name, size) => {
  expect(sheetPapers[name as keyof typeof iso216].sizeMm).toEqual(size);
});

it('papers have the sizes in inches that their names say', () => {
  expect(sheetPapers.letter.sizeMm[0]).toBeCloseTo(215.9, 9);
  expect(sheetPapers.tabloid.sizeMm[1]).toBeCloseTo(431.8, 9);
});
