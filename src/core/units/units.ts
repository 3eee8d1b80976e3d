/**
 * Lengths, densities and angles as branded numbers, and the only place where one turns into another.
 *
 * The brands cost nothing at run time. They stop an inch from being passed where a millimetre is
 * meant, which on a lens sheet is the difference between a print and waste paper.
 */

declare const unit: unique symbol;
type Branded<Name extends string> = number & { readonly [unit]: Name };

/** Millimetres, float64. */
export type Mm = Branded<'mm'>;
/** International inches (exactly 25.4 mm). */
export type Inch = Branded<'in'>;
/** Lenticules to the inch. */
export type Lpi = Branded<'lpi'>;
/** Printed dots per inch, dpi. */
export type Dpi = Branded<'dpi'>;
/** Radians. */
export type Rad = Branded<'rad'>;
/** Degrees of arc. */
export type Deg = Branded<'deg'>;

/** Millimetres in an inch: exact by the international yard and pound agreement of 1959. */
export const MM_PER_INCH = 25.4;

export const mm = (value: number): Mm => value as Mm;
export const inch = (value: number): Inch => value as Inch;
export const lpi = (value: number): Lpi => value as Lpi;
export const dpi = (value: number): Dpi => value as Dpi;
export const rad = (value: number): Rad => value as Rad;
export const deg = (value: number): Deg => value as Deg;

export const inchToMm = (length: Inch): Mm => mm(length * MM_PER_INCH);
export const mmToInch = (length: Mm): Inch => inch(length / MM_PER_INCH);

/** Pitch of a lens sheet from its count to the inch, and back: the two are each other's inverse. */
export const lpiToMm = (count: Lpi): Mm => mm(MM_PER_INCH / count);
export const mmToLpi = (pitch: Mm): Lpi => lpi(MM_PER_INCH / pitch);

/** Distance from one printed dot to the next. */
export const dotPitchMm = (density: Dpi): Mm => mm(MM_PER_INCH / density);

export const radToDeg = (angle: Rad): Deg => deg((angle * 180) / Math.PI);
export const degToRad = (angle: Deg): Rad => rad((angle * Math.PI) / 180);

/**
 * Whole dots that a length covers at a density, to the nearest dot. This is the one place where a
 * length is rounded to dots; the lens pitch never passes through it.
 */
export const wholeDots = (length: Mm, density: Dpi): number =>
  Math.round((length * density) / MM_PER_INCH);
