/** What a strip has said: the woven pitch as lines to the inch, and how surely. */

export type ReadingMethod = 'band' | 'fringes' | 'photo';

export interface PitchReading {
  readonly method: ReadingMethod;
  /** At the strip's reading distance, in the print's own inches. */
  readonly viewingLpi: number;
  /** Two standard deviations: nineteen readings in twenty fall within. */
  readonly plusMinusLpi: number;
  /** How the lens lay on the strip, where that was measured; clockwise positive. */
  readonly skewRad?: number;
  /** Two standard deviations. */
  readonly skewPlusMinusRad?: number;
}
