/** Paper sizes: ISO 216 by its rule, and sizes in inches as sold in the US. */
import { MM_PER_INCH } from '../units/units.ts';

/** Short and long side of A0 and B0, rounded to the millimetre in ISO 216 itself. */
const ISO_WHOLE = { a: [841, 1189], b: [1000, 1414] } as const;

/** Each size is the one before cut in two along its long side, fractions dropped (ISO 216). */
const isoSize = (series: 'a' | 'b', number: number): readonly [number, number] => {
  let [short, long]: readonly [number, number] = ISO_WHOLE[series];
  for (let cut = 0; cut < number; cut += 1) [short, long] = [Math.floor(long / 2), short];
  return [short, long];
};
const inches = (short: number, long: number) => [short * MM_PER_INCH, long * MM_PER_INCH] as const;

/** Width and height in millimetres, short side first. */
export const sheetPapers = {
  a5: { label: 'A5', sizeMm: isoSize('a', 5) },
  a4: { label: 'A4', sizeMm: isoSize('a', 4) },
  b4: { label: 'B4', sizeMm: isoSize('b', 4) },
  a3: { label: 'A3', sizeMm: isoSize('a', 3) },
  b3: { label: 'B3', sizeMm: isoSize('b', 3) },
  a2: { label: 'A2', sizeMm: isoSize('a', 2) },
  a1: { label: 'A1', sizeMm: isoSize('a', 1) },
  a0: { label: 'A0', sizeMm: isoSize('a', 0) },
  letter: { label: 'Letter, 8.5 × 11 in', sizeMm: inches(8.5, 11) },
  legal: { label: 'Legal, 8.5 × 14 in', sizeMm: inches(8.5, 14) },
  tabloid: { label: 'Tabloid, 11 × 17 in', sizeMm: inches(11, 17) },
  large: { label: '13 × 19 in', sizeMm: inches(13, 19) },
} as const;
export type SheetPaperName = keyof typeof sheetPapers;
