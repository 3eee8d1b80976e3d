/** Checks by a ruler on its bars whether the printer drew the strip at its size. */

/** A ruler is read to a quarter of a millimetre; a driver at 100 % stays within 0.2 % (our own values, no source). */
const RULER_MM = 0.25;
const STEADY = 0.002;

export interface ScaleCheck {
  /** Measured / drawn: 0.97 where the driver shrank the page to fit. */
  readonly factor: number;
  /** How far the factor may be from 1 by the ruler alone. */
  readonly allowed: number;
  readonly right: boolean;
  /** So far off that something else was measured, or in another unit. */
  readonly beyond: boolean;
}

/** @throws RangeError that names the field. */
export const checkScale = (drawnMm: number, measuredMm: number): ScaleCheck => {
  for (const [field, value] of Object.entries({ drawnMm, measuredMm }))
    if (!(value > 0 && Number.isFinite(value)))
      throw new RangeError(`${field}: expected a length above 0 mm, received ${value}`);
  const factor = measuredMm / drawnMm;
  const allowed = Math.max(STEADY, RULER_MM / drawnMm);
  // A length typed as 100.25 must not fail by a binary digit.
  const right = Math.abs(factor - 1) <= allowed + 1e-9;
  return { factor, allowed, right, beyond: factor < 0.5 || factor > 2 };
};
