/**
 * How views mix (optics relations 3 and 8). Through one rib an eye sees a strip of the print, not a line: the spot of
 * the lens, widened by the printed dot. Both count as uniform strips; together they form a trapezium, whose part over
 * each view slot is that slot’s share.
 *
 * The shader in `workers/proof/mix-glsl.ts` does the same in GLSL and is tested against this file.
 */

/** Widths as shares of the lens pitch, at least 0. */
export interface Blur {
  /** Spot of the lens / p: `evenWidth(spot.rmsMm) / pitchMm`. */
  readonly spot: number;
  /** Printed dot / p: see `dotSpread`. */
  readonly dot: number;
}

/** The share of one view slot in what is seen. */
export interface SlotShare {
  readonly slot: number;
  /** The rib of that slot: 0 the one looked through, 1 its neighbour on the right, −1 on the left. */
  readonly rib: number;
  readonly share: number;
}

/**
 * Spread that the printed dot adds, as a share of the pitch; dots may lie anywhere under a rib. Crisp: a dot takes
 * the view at its middle and shows it over its width, a spread of one dot. Blended: it also averages the views over
 * its width, a spread of one dot more; two uniform strips of width w spread as far as one of √2 w.
 */
export const dotSpread = (
  dotPitchMm: number,
  pitchMm: number,
  columns: 'blended' | 'crisp',
): number => (dotPitchMm / pitchMm) * (columns === 'blended' ? Math.SQRT2 : 1);

/** Share of the trapezium, centred at 0, to the left of x: rises from 0 to 1, ½ at 0. */
export const blurLeftOf = (x: number, blur: Blur): number => {
  const wide = Math.max(blur.spot, blur.dot);
  const narrow = Math.min(blur.spot, blur.dot);
  const reach = (wide + narrow) / 2;
  const away = Math.abs(x);
  let beyond: number;
  if (away >= reach) beyond = x === 0 ? 0.5 : 0;
  else if (away <= (wide - narrow) / 2) beyond = 0.5 - away / wide;
  else beyond = (reach - away) ** 2 / (2 * wide * narrow);
  return x < 0 ? beyond : 1 - beyond;
};

/**
 * Shares of the view slots in what an eye sees at place `u`. Place m of N from the left shows view N − 1 − m
 * (relation 3).
 * @param u in pitches from the left edge of the rib looked through; outside 0 … 1 the eye sees the views under a
 *   neighbouring rib.
 * @returns shares above 0 that sum to 1, from left to right.
 * @throws RangeError that names the field.
 */
export const mix = (u: number, viewSlots: number, blur: Blur): SlotShare[] => {
  if (!Number.isFinite(u)) throw new RangeError(`u: expected a finite number, received ${u}`);
  if (!(Number.isInteger(viewSlots) && viewSlots > 0))
    throw new RangeError(`viewSlots: expected a whole number above 0, received ${viewSlots}`);
  for (const field of ['spot', 'dot'] as const)
    if (!(blur[field] >= 0 && Number.isFinite(blur[field])))
      throw new RangeError(`blur.${field}: expected 0 or more, received ${blur[field]}`);
  const shares: SlotShare[] = [];
  forEachShare(u, viewSlots, blur, (slot, rib, share) => shares.push({ slot, rib, share }));
  return shares;
};

/** As `mix`, for millions of places: takes each share in turn, and does not check what it is given. */
export const forEachShare = (
  u: number,
  viewSlots: number,
  blur: Blur,
  take: (slot: number, rib: number, share: number) => void,
): void => {
  const reach = (blur.spot + blur.dot) / 2;
  const first = Math.floor((u - reach) * viewSlots);
  const last = Math.max(first, Math.ceil((u + reach) * viewSlots) - 1);
  let left = 0;
  for (let cell = first; cell <= last; cell += 1) {
    const right = cell === last ? 1 : blurLeftOf((cell + 1) / viewSlots - u, blur);
    if (right > left) {
      // Cells count slots from the left edge of the rib looked through, and run on under its neighbours.
      const rib = Math.floor(cell / viewSlots);
      take(viewSlots - 1 - (cell - rib * viewSlots), rib, right - left);
    }
    left = Math.max(left, right);
  }
};
