/**
 * The column map: which frames each printed dot shows, and how much of each (optics relations 2, 3).
 *
 * Measure the print across the ribs in *cells*, N to a lenticule. Cell c belongs to lenticule
 * ⌊c / N⌋ and to place c mod N under it, counted from the left; the picture under a rib is mirrored,
 * so place m shows view N − 1 − m. A dot covers a stretch of this scale, about one cell long on a
 * well-matched printer, at fractional positions throughout: nothing is rounded to dots.
 */
import { MM_PER_INCH } from '../units/units.ts';
import type { SheetSpec } from './sheet-spec.ts';
import { dotsAcross } from './sheet-spec.ts';

/**
 * Sparse rows in compressed form. Dot j shows the entries from `start[j]` up to `start[j + 1]`:
 * view slot `slot[e]` at lenticule `lenticule[e]` with share `weight[e]`. Shares of a dot sum to 1.
 */
export interface ColumnMap {
  /** Dots across the ribs. */
  readonly dots: number;
  /** Lenticules the sheet touches, whole or in part; `lenticule` counts from 0 within them. */
  readonly lenticules: number;
  /** Number of the first of them, where 0 is the lenticule at the middle of the print. */
  readonly firstLenticule: number;
  readonly start: Uint32Array;
  readonly lenticule: Uint32Array;
  readonly slot: Uint16Array;
  readonly weight: Float64Array;
}

/** Which lenticules lie over the sheet: the number of the first, and how many. */
export const lenticulesOver = (spec: SheetSpec): { first: number; count: number } => {
  const first = Math.floor(edgeInCells(spec, 0) / spec.viewSlots);
  const last = Math.ceil(edgeInCells(spec, dotsAcross(spec)) / spec.viewSlots) - 1;
  return { first, count: last - first + 1 };
};

/** Edges nearer than this to a whole cell lie on it: the difference is float64's, not the print's. */
const SAME_EDGE = 1e-9;

/** Left edge of dot j on the cell scale, where lenticule 0 reaches from 0 to N. */
const edgeInCells = (spec: SheetSpec, dot: number): number => {
  const fromMiddleMm = ((dot - dotsAcross(spec) / 2) * MM_PER_INCH) / spec.acrossDpi;
  const edge = ((fromMiddleMm - spec.offsetMm) / spec.viewingPitchMm + 0.5) * spec.viewSlots;
  const whole = Math.round(edge);
  return Math.abs(edge - whole) < SAME_EDGE ? whole : edge;
};

/**
 * Builds the map for a sheet. Throws a RangeError that names the field when the sheet is impossible.
 * @param over the lenticules that its frames were prepared for, where the sheet was slid since by less
 * than a dot: one that comes in at a side shows what its neighbour does.
 */
export const columnMap = (
  spec: SheetSpec,
  over: { readonly first: number; readonly count: number } = lenticulesOver(spec),
): ColumnMap => {
  checkSpec(spec);
  const dots = dotsAcross(spec);
  const { first, count } = over;
  const cellsPerDot = edgeInCells(spec, 1) - edgeInCells(spec, 0);
  const capacity = dots * (Math.ceil(cellsPerDot) + 1);
  const start = new Uint32Array(dots + 1);
  const lenticule = new Uint32Array(capacity);
  const slot = new Uint16Array(capacity);
  const weight = new Float64Array(capacity);

  let entries = 0;
  const add = (cell: number, share: number) => {
    const rib = Math.floor(cell / spec.viewSlots);
    lenticule[entries] = Math.min(count - 1, Math.max(0, rib - first));
    slot[entries] = spec.viewSlots - 1 - (cell - rib * spec.viewSlots);
    weight[entries] = share;
    entries += 1;
  };
  for (let dot = 0; dot < dots; dot += 1) {
    const left = edgeInCells(spec, dot);
    const right = edgeInCells(spec, dot + 1);
    if (spec.columns === 'crisp') add(Math.floor((left + right) / 2), 1);
    else shareOut(left, right, add);
    start[dot + 1] = entries;
  }
  return {
    dots,
    lenticules: count,
    firstLenticule: first,
    start,
    lenticule: lenticule.slice(0, entries),
    slot: slot.slice(0, entries),
    weight: weight.slice(0, entries),
  };
};

/** Some of a map's dots, counted from the first of them; lenticules keep the numbers they had. */
export const dotsOfMap = (map: ColumnMap, { first, count }: { first: number; count: number }) =>
  first === 0 && count === map.dots
    ? map
    : { ...map, dots: count, start: map.start.subarray(first, first + count + 1) };

/** Splits [left, right) at whole cells and hands out each piece with its share of the whole. */
const shareOut = (left: number, right: number, add: (cell: number, share: number) => void) => {
  const lastCell = Math.max(Math.floor(left), Math.ceil(right) - 1);
  let from = left;
  for (let cell = Math.floor(left); cell <= lastCell; cell += 1) {
    const to = Math.min(right, cell + 1);
    const share = (to - from) / (right - left);
    if (share > 0) add(cell, share);
    from = to;
  }
};

const checkSpec = (spec: SheetSpec) => {
  const positive: (keyof SheetSpec)[] = [
    'widthDots',
    'heightDots',
    'acrossDpi',
    'alongDpi',
    'viewingPitchMm',
    'viewSlots',
  ];
  for (const field of positive) {
    const value = spec[field] as number;
    if (!(value > 0 && Number.isFinite(value)))
      throw new RangeError(`${field}: expected a number above 0, received ${value}`);
  }
  for (const field of ['widthDots', 'heightDots', 'viewSlots'] as const)
    if (!Number.isInteger(spec[field]))
      throw new RangeError(`${field}: expected a whole number, received ${spec[field]}`);
  if (!Number.isFinite(spec.offsetMm))
    throw new RangeError(`offsetMm: expected a number, received ${spec.offsetMm}`);
};
