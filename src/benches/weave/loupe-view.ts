/** What the loupe looks at: a window of the sheet in dots, its ribs, and what its middle dot shows. */
import { MM_PER_INCH } from '../../core/units/units.ts';
import type { ColumnMap } from '../../core/weave/column-map.ts';
import type { SheetSpec } from '../../core/weave/sheet-spec.ts';
import { dotsAcross } from '../../core/weave/sheet-spec.ts';

/** Whole dots of the sheet, from its top left corner. */
export interface DotWindow {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** The window of this many dots around a middle, pushed inside the sheet. */
export const windowAround = (
  sheet: SheetSpec,
  middleX: number,
  middleY: number,
  dotsWide: number,
  dotsHigh: number,
): DotWindow => {
  const width = Math.max(1, Math.min(sheet.widthDots, Math.ceil(dotsWide)));
  const height = Math.max(1, Math.min(sheet.heightDots, Math.ceil(dotsHigh)));
  const inside = (middle: number, size: number, whole: number) =>
    Math.min(whole - size, Math.max(0, Math.round(middle - size / 2)));
  return {
    left: inside(middleX, width, sheet.widthDots),
    top: inside(middleY, height, sheet.heightDots),
    width,
    height,
  };
};

/** Where ribs meet, in dots across the ribs from the sheet's edge, between two dots. Fractional. */
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
  for (let e = map.start[dot] as number; e < (map.start[dot + 1] as number); e += 1)
    shares.push({ slot: (map.slot[e] as number) + 1, share: map.weight[e] as number });
  return { lenticule, place: ribs - lenticule, shares };
};
