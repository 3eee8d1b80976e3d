/**
 * Checks by a ruler on its bars whether the printer drew the strip at its size. A steady stretch by paper and feed is
 * in the strip's reading and spoils nothing: the next print stretches alike. What spoils a print is a page that was
 * scaled, because its dots were made anew and the next page, of another size, is scaled otherwise; and two ways that
 * differ, because the dots were taken for another density.
 */

/** A ruler is read to a quarter of a millimetre (our own value, no source). */
const RULER_MM = 0.25;
/** Paper and feed stretch a print by parts in a thousand; more was done by a driver (our own value, no source). */
const BY_PAPER = 0.006;

export interface ScaleCheck {
  /** Measured / drawn: 0.97 where the driver shrank the page to fit. */
  readonly factor: number;
  /** How far the factor may be from 1 by the ruler alone. */
  readonly allowed: number;
  /** Nothing that this ruler can tell. */
  readonly right: boolean;
  /** More than paper and feed do. */
  readonly scaled: boolean;
  /** So far off that something else was measured, or in another unit. */
  readonly beyond: boolean;
}

/** A length typed as 100.25 must not fail by a binary digit. */
const DIGIT = 1e-9;

/** @throws RangeError that names the field. */
export const checkScale = (drawnMm: number, measuredMm: number): ScaleCheck => {
  for (const [field, value] of Object.entries({ drawnMm, measuredMm }))
    if (!(value > 0 && Number.isFinite(value)))
      throw new RangeError(`${field}: expected a length above 0 mm, received ${value}`);
  const factor = measuredMm / drawnMm;
  const allowed = RULER_MM / drawnMm;
  const off = Math.abs(factor - 1);
  return {
    factor,
    allowed,
    right: off <= allowed + DIGIT,
    scaled: off > BY_PAPER + allowed + DIGIT,
    beyond: factor < 0.5 || factor > 2,
  };
};

/** Both bars; a side is undefined until its bar is measured. */
export interface Scale {
  readonly across: ScaleCheck | undefined;
  readonly along: ScaleCheck | undefined;
}

/**
 * `right`: nothing found. `stretched`: paper or feed, which the reading of the strip contains. `scaled`: the page.
 * `two-ways`: across and along differ by more than paper makes them. `beyond`: another length was measured.
 * `unmeasured`: no bar yet.
 */
export type ScaleFinding = 'unmeasured' | 'right' | 'stretched' | 'scaled' | 'two-ways' | 'beyond';

/** Paper may stretch one way and shrink the other. */
const differ = (across: ScaleCheck, along: ScaleCheck): boolean =>
  Math.abs(across.factor - along.factor) >
  BY_PAPER + Math.hypot(across.allowed, along.allowed) + DIGIT;

export const scaleFinding = ({ across, along }: Scale): ScaleFinding => {
  const measured = [across, along].filter((one) => one !== undefined);
  if (measured.length === 0) return 'unmeasured';
  if (measured.some((one) => one.beyond)) return 'beyond';
  if (across !== undefined && along !== undefined && differ(across, along)) return 'two-ways';
  if (measured.some((one) => one.scaled)) return 'scaled';
  return measured.every((one) => one.right) ? 'right' : 'stretched';
};

/** Whether no pitch may be taken from the strip. */
export const spoils = (scale: Scale): boolean =>
  ['scaled', 'two-ways', 'beyond'].includes(scaleFinding(scale));
