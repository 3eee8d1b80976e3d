/** The result of reading a strip: the woven pitch in LPI, and its uncertainty. */

export type ReadingMethod = 'band' | 'fringes' | 'photo';

export interface PitchReading {
  readonly method: ReadingMethod;
  /** At the reading distance of the strip, in the print’s own inches. */
  readonly viewingLpi: number;
  /** Two standard deviations: 19 readings in 20 fall within. */
  readonly plusMinusLpi: number;
  /** Skew of the lens on the strip, where it was measured; clockwise positive. */
  readonly skewRad?: number;
  /** Two standard deviations. */
  readonly skewPlusMinusRad?: number;
}
