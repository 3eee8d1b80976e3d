/**
 * Lengths, densities and angles as branded numbers, and all conversions between them. The brands cost nothing at run
 * time and keep inches from being passed where millimetres are meant.
 */

declare const unit: unique symbol;
type Branded<Name extends string> = number & { readonly [unit]: Name };

/** Millimetres, float64. */
export type Mm = Branded<'mm'>;
/** International inches (exactly 25.4 mm). */
export type Inch = Branded<'in'>;
/** Lenticules per inch. */
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

/** The pitch of a lens sheet from its lenticules per inch, and back. */
export const lpiToMm = (count: Lpi): Mm => mm(MM_PER_INCH / count);
export const mmToLpi = (pitch: Mm): Lpi => lpi(MM_PER_INCH / pitch);

/** Distance from one printed dot to the next. */
export const dotPitchMm = (density: Dpi): Mm => mm(MM_PER_INCH / density);

export const radToDeg = (angle: Rad): Deg => deg((angle * 180) / Math.PI);
export const degToRad = (angle: Deg): Rad => rad((angle * Math.PI) / 180);

/**
 * The nearest number of whole dots that a length covers. Lengths are rounded to dots here and nowhere else; the lens
 * pitch is never rounded.
 */
export const wholeDots = (length: Mm, density: Dpi): number =>
  Math.round((length * density) / MM_PER_INCH);
