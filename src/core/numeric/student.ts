/** Student's distribution, for errors that are themselves estimated from a few residuals. */

/** The normal distribution's two-sided 95 %. */
const Z = 1.959964;

/**
 * Two-sided 95 % quantile, by the expansion of Abramowitz and Stegun, 26.7.5 (from memory): to 1 % from 3 degrees of
 * freedom on. @param free degrees of freedom, 3 or more.
 */
export const studentT95 = (free: number): number =>
  Z +
  (Z ** 3 + Z) / 4 / free +
  (5 * Z ** 5 + 16 * Z ** 3 + 3 * Z) / 96 / free ** 2 +
  (3 * Z ** 7 + 19 * Z ** 5 + 17 * Z ** 3 - 15 * Z) / 384 / free ** 3;
