/**
 * The column map: which frames each printed dot shows, and their shares (optics relations 2, 3).
 *
 * The print is measured across the ribs in *cells*, N for each lenticule. Cell c belongs to lenticule ⌊c / N⌋ and to
 * place c mod N under it, from the left; the picture under a rib is mirrored, so place m shows view N − 1 − m. A dot
 * covers a stretch of this scale, about one cell on a well-matched printer, at a fractional position: nothing is
 * rounded to dots.
 */
import { MM_PER_INCH } from '../units/units.ts';
import type { SheetSpec } from './sheet-spec.ts';
import { dotsAcross } from './sheet-spec.ts';

/**
 * Sparse rows in compressed form. Dot j shows the entries from `start[j]` up to `start[j + 1]`: view slot `slot[e]`
 * at lenticule `lenticule[e]` with share `weight[e]`. The shares of a dot sum to 1.
 */
export interface ColumnMap {
  /** Dots across the ribs. */
  readonly dots: number;
  /** Lenticules that the sheet touches, even in part; `lenticule` counts from 0 within them. */
  readonly lenticules: number;
  /** Number of the first one; 0 is the lenticule at the middle of the print. */
  readonly firstLenticule: number;
  readonly start: Uint32Array;
  readonly lenticule: Uint32Array;
  readonly slot: Uint16Array;
  readonly weight: Float64Array;
}

/** The lenticules over the sheet: number of the first, and how many. */
export const lenticulesOver = (spec: SheetSpec): { first: number; count: number } => {
  const first = Math.floor(edgeInCells(spec, 0) / spec.viewSlots);
  const last = Math.ceil(edgeInCells(spec, dotsAcross(spec)) / spec.viewSlots) - 1;
  return { first, count: last - first + 1 };
};

/** Edges closer than this to a whole cell lie on it: the difference is rounding. */
const SAME_EDGE = 1e-9;

/** Left edge of dot j on the cell scale; lenticule 0 reaches from 0 to N. */
const edgeInCells = (spec: SheetSpec, dot: number): number => {
  const fromMiddleMm = ((dot - dotsAcross(spec) / 2) * MM_PER_INCH) / spec.acrossDpi;
  const edge = ((fromMiddleMm - spec.offsetMm) / spec.viewingPitchMm + 0.5) * spec.viewSlots;
  const whole = Math.round(edge);
  return Math.abs(edge - whole) < SAME_EDGE ? whole : edge;
};

/**
 * Builds the map for a sheet.
 * @param over the lenticules that its frames were prepared for, when the sheet has been slid since by less than a
 *   dot: a new one at a side shows what its neighbour shows.
 * @throws RangeError that names the field when the sheet is impossible.
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

/** Part of a map’s dots; `lenticule` keeps its numbers. */
export const dotsOfMap = (map: ColumnMap, { first, count }: { first: number; count: number }) =>
  first === 0 && count === map.dots
    ? map
    : { ...map, dots: count, start: map.start.subarray(first, first + count + 1) };

/** Splits [left, right) at whole cells and adds each piece with its share. */
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
    'lensPitchMm',
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
