/** What the loupe looks at: a window of the sheet in dots, its ribs, and what its middle dot shows. */
import { MM_PER_INCH } from '../core/units/units.ts';
import type { ColumnMap } from '../core/weave/column-map.ts';
import type { SheetSpec } from '../core/weave/sheet-spec.ts';
import { dotsAcross } from '../core/weave/sheet-spec.ts';

/** Whole dots of the sheet, from its top left corner. */
export interface DotWindow {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/**
 * What the box shows along one side, in dots of the sheet. The middle dot lies in the middle of the box, so near
 * an edge of the sheet the box reaches past it.
 */
export interface Span {
  /** Where the box begins; may be between two dots, and below 0. */
  readonly origin: number;
  readonly size: number;
}

export const spanAround = (middle: number, sheetDots: number, boxDots: number): Span => ({
  origin: Math.min(sheetDots - 1, Math.max(0, Math.floor(middle))) + 0.5 - boxDots / 2,
  size: boxDots,
});

/** The dots of the sheet that lie at least partly in the box. */
export const windowIn = (sheet: SheetSpec, across: Span, down: Span): DotWindow => {
  const first = ({ origin }: Span) => Math.max(0, Math.floor(origin));
  const count = (span: Span, whole: number) =>
    Math.max(1, Math.min(whole, Math.ceil(span.origin + span.size)) - first(span));
  return {
    left: first(across),
    top: first(down),
    width: count(across, sheet.widthDots),
    height: count(down, sheet.heightDots),
  };
};

/** Grooves between `from` and `to`, in dots (fractional) across the ribs from the sheet's edge. */
export const ribEdges = (sheet: SheetSpec, from: number, to: number): number[] => {
  const dotsPerMm = sheet.acrossDpi / MM_PER_INCH;
  const pitchDots = sheet.viewingPitchMm * dotsPerMm;
  const firstEdge = dotsAcross(sheet) / 2 + sheet.offsetMm * dotsPerMm - pitchDots / 2;
  const edges: number[] = [];
  for (let rib = Math.ceil((from - firstEdge) / pitchDots); ; rib += 1) {
    const edge = firstEdge + rib * pitchDots;
    if (edge > to) return edges;
    edges.push(edge);
  }
};

export interface DotFacts {
  /** Number of its lenticule; 0 is the one at the middle of the print. */
  readonly lenticule: number;
  /** Place of its middle under the rib, 0 … 1 from the left (or from the top). */
  readonly place: number;
  /** The view slots it shows, counted from 1, and the share of each. */
  readonly shares: readonly { readonly slot: number; readonly share: number }[];
}

/** What one dot across the ribs shows. */
export const dotFacts = (sheet: SheetSpec, map: ColumnMap, dot: number): DotFacts => {
  const fromMiddleMm = ((dot + 0.5 - map.dots / 2) * MM_PER_INCH) / sheet.acrossDpi;
  const ribs = (fromMiddleMm - sheet.offsetMm) / sheet.viewingPitchMm + 0.5;
  const lenticule = Math.floor(ribs);
  const shares = [];
  for (let e = map.start[dot]!; e < map.start[dot + 1]!; e += 1)
    shares.push({ slot: map.slot[e]! + 1, share: map.weight[e]! });
  return { lenticule, place: ribs - lenticule, shares };
};
