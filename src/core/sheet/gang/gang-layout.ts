/** The layouts of several prints on one lens sheet that can be cut from edge to edge, least waste first. */
import type { GangCut } from './gang-cuts.ts';
import { cuttingList } from './gang-cuts.ts';
import type { GangGrid } from './gang-grid.ts';
import type { GangPlace, GangWant } from './gang-pack.ts';
import { gangPackings } from './gang-pack.ts';

export interface GangLayout {
  readonly places: readonly GangPlace[];
  readonly cuts: readonly GangCut[];
  /** Share of the lens sheet outside all prints, 0 … 1. */
  readonly wasteShare: number;
  /** The largest piece of lens that the first cuts leave whole, mm across and along the ribs. */
  readonly offcutMm: { readonly acrossMm: number; readonly alongMm: number };
}

/** Ignores rounding beyond the edge, which no knife could cut off. */
const snapped = (value: number, to: number) => (Math.abs(value - to) < 1e-6 ? to : value);

/** The whole sheet in the measures of the cuts. */
const outline = (grid: GangGrid) => {
  const { acrossMm, alongMm, edgeMm, firstGrooveMm, pitchMm, ribs, alongUm } = grid;
  return {
    along: [
      snapped(-firstGrooveMm / pitchMm, 0),
      snapped((acrossMm - firstGrooveMm) / pitchMm, ribs),
    ] as const,
    across: [snapped(-edgeMm * 1000, 0), snapped((alongMm - edgeMm) * 1000, alongUm)] as const,
  };
};

/** The piece to the right of all prints or the one below them, whichever is larger. */
const offcutOf = (grid: GangGrid, places: readonly GangPlace[]): GangLayout['offcutMm'] => {
  const { acrossMm, alongMm, firstGrooveMm, edgeMm, pitchMm } = grid;
  const right = Math.max(0, ...places.map(({ firstRib, ribs }) => firstRib + ribs));
  const bottom = Math.max(0, ...places.map(({ topUm, alongUm }) => topUm + alongUm));
  if (places.length === 0) return { acrossMm, alongMm };
  const beside = acrossMm - firstGrooveMm - right * pitchMm;
  const below = alongMm - edgeMm - bottom / 1000;
  return beside * alongMm > below * acrossMm
    ? { acrossMm: beside, alongMm }
    : { acrossMm, alongMm: below };
};

const layoutOf = (grid: GangGrid, places: readonly GangPlace[]): GangLayout | undefined => {
  const cuts = cuttingList(outline(grid), places);
  if (cuts === undefined) return undefined;
  const { acrossMm, alongMm, pitchMm } = grid;
  // Sums whole numbers, so that layouts with the same pictures have exactly the same waste.
  const used = places.reduce((sum, { ribs, alongUm }) => sum + ribs * alongUm, 0);
  return {
    places,
    cuts,
    wasteShare: 1 - (used * pitchMm) / 1000 / (acrossMm * alongMm),
    offcutMm: offcutOf(grid, places),
  };
};

const offcutArea = ({ offcutMm }: GangLayout) => offcutMm.acrossMm * offcutMm.alongMm;

/** Less waste first; at equal waste, the larger offcut, then fewer cuts. */
const byWaste = (a: GangLayout, b: GangLayout): number => {
  if (a.wasteShare !== b.wasteShare) return a.wasteShare - b.wasteShare;
  if (Math.abs(offcutArea(a) - offcutArea(b)) > 1) return offcutArea(b) - offcutArea(a);
  return a.cuts.length - b.cuts.length;
};

/**
 * Distinct layouts, best first; at least one, though it may hold no print. Where not all prints fit, those with the
 * most picture come first.
 * @throws RangeError where two wants ask to fill the sheet.
 */
export const gangLayouts = (grid: GangGrid, wants: readonly GangWant[]): readonly GangLayout[] => {
  if (wants.filter(({ copies }) => copies === 'fill').length > 1)
    throw new RangeError('copies: expected at most one print that fills the sheet, received more');
  const seen = new Map<string, GangLayout>();
  for (const places of gangPackings(grid, wants)) {
    const key = JSON.stringify(
      places
        .map(({ id, firstRib, topUm }) => [topUm, firstRib, id])
        .sort((a, b) => Number(a[0]) - Number(b[0]) || Number(a[1]) - Number(b[1])),
    );
    const layout = seen.has(key) ? undefined : layoutOf(grid, places);
    if (layout !== undefined) seen.set(key, layout);
  }
  return [...seen.values()].sort(byWaste);
};
