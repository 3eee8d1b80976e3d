/**
 * How many just noticeable steps lie between two lights. The Grayscale Standard Display Function of DICOM PS3.14 (7.1)
 * numbers lights so that one step is the least difference that the standard observer tells apart in a good place: a
 * grating of 4 cycles a degree on even ground (Barten's model of the eye).
 */

/** Coefficients of the index, PS3.14 7.1 (from memory; the tests hold them against the standard's other formula). */
const INDEX = [
  71.498068, 94.593053, 41.912053, 9.8247004, 0.28175407, -1.1878455, -0.18014349, 0.14710899,
  -0.017046845,
] as const;

/** The function's range, cd/m². */
const [DARKEST, BRIGHTEST] = [0.05, 3993.4] as const;

/** Index of a luminance, 1 … 1023; outside the range that of its nearest end. @param luminance cd/m² */
export const noticeableIndex = (luminance: number): number => {
  const log = Math.log10(Math.min(BRIGHTEST, Math.max(DARKEST, luminance)));
  return INDEX.reduceRight((sum, coefficient) => sum * log + coefficient, 0);
};

/**
 * Luminance of paper white in a lit room: 500 lx on the desk, as EN 12464-1 asks of one for reading, on paper that
 * reflects 0.8 of it evenly: 500 × 0.8 / π cd/m².
 */
export const PAPER_WHITE = (500 * 0.8) / Math.PI;
