/** What the free edge of the lens sheet has room for: rails next to the prints, and the rim outside them. */

/** Strip at the edge of the sheet that rails leave free. */
const RIM_MM = 3.25;
export const GAP_MM = 0.25;
const RAIL_MM = 6;
const LEAST_RAIL_MM = 2;
/** Where the rim is not this deep there are no crop marks. */
export const LEAST_STROKE_MM = 0.5;

/** Width of the rails in an edge of this size; 0 where there is no room. */
export const railWidthMm = (edgeMm: number): number => {
  const room = edgeMm - RIM_MM - GAP_MM;
  return room < LEAST_RAIL_MM ? 0 : Math.min(RAIL_MM, room);
};

/** Whether the label or the bar find room in an edge of this size. */
export const hasRoomForWords = (edgeMm: number): boolean => edgeMm >= RIM_MM;

/** How deep the rim is: from the edge of the sheet to the rails, or to the prints where there are none. */
export const rimMm = (edgeMm: number, rails: boolean): number =>
  Math.max(0, edgeMm - GAP_MM - (rails ? railWidthMm(edgeMm) : 0));
