/**
 * One print over several lens sheets (tiles). The whole is woven once, about its own middle; a tile is the window of
 * it under one lens sheet. Lens sheets meet at grooves, and prints are cut flush with them, so tiles laid side by
 * side form the whole sheet again, dot for dot.
 *
 * The edges of tiles are multiples of the lens pitch p, not of the woven pitch p_v: under a lens far from the middle
 * the strips lie x g₀ / D beside their ribs, as they must (relation 1).
 */
import { MM_PER_INCH, dpi, mm, wholeDots } from '../units/units.ts';
import type { SheetSpec } from '../weave/sheet-spec.ts';
import { dotsAcross, dotsAlong } from '../weave/sheet-spec.ts';
import type { PageBox } from './page-spec.ts';

export interface TilingSpec {
  /** The whole woven sheet, with its bleed. */
  readonly sheet: SheetSpec;
  /** Part of the bleed on each side, in dots; 0 for none. */
  readonly bleedAcrossDots: number;
  readonly bleedAlongDots: number;
  /** p, the lens pitch in the print’s millimetres. */
  readonly pitchMm: number;
  /** Usable size of a lens sheet, across its ribs and along them. */
  readonly usableAcrossMm: number;
  readonly usableAlongMm: number;
  /** Number of tiles across the ribs and along them; left out: as few as the lens allows. */
  readonly tilesAcross?: number | undefined;
  readonly tilesAlong?: number | undefined;
}

/** A stretch across the ribs: whole ribs, edges in millimetres from the middle of the whole. */
export interface AcrossSpan {
  /** 0 is the rib in the middle of the whole. */
  readonly firstRib: number;
  readonly ribs: number;
  readonly fromMm: number;
  readonly toMm: number;
  /** The same edges as the nearest dots of the woven sheet. */
  readonly fromDot: number;
  readonly toDot: number;
}

/** A stretch along the ribs. */
export type AlongSpan = Omit<AcrossSpan, 'firstRib' | 'ribs'>;

export interface Tile {
  /** From 0, as the print is seen from the front. */
  readonly row: number;
  readonly column: number;
  readonly across: AcrossSpan;
  readonly along: AlongSpan;
  /** The cut, in dots of the woven sheet. */
  readonly trim: PageBox;
  /** Outline of the lens, millimetres from the middle of the whole; y runs down. */
  readonly leftMm: number;
  readonly topMm: number;
  readonly widthMm: number;
  readonly heightMm: number;
}

export interface Tiling {
  readonly rows: number;
  readonly columns: number;
  /** Row by row from the top, each from the left. */
  readonly tiles: readonly Tile[];
  /** Most ribs of one tile, and longest stretch along them. */
  readonly mostRibs: number;
  readonly longestMm: number;
  /** Whole ribs on one lens sheet. */
  readonly ribsOnLens: number;
  /** Fewest tiles that the lens allows. */
  readonly leastAcross: number;
  readonly leastAlong: number;
}

/** Floor and ceiling that ignore the last digits of float64. */
const SAME = 1e-6;
const whole = (value: number): number => Math.floor(value + SAME);
const atLeast = (value: number): number => Math.ceil(value - SAME);

/** Bounds of equal parts of `total`, rounded: 0, …, total; length count + 1. */
const evenParts = (total: number, count: number): number[] =>
  Array.from({ length: count + 1 }, (_, i) => Math.round((i * total) / count));

/** K: ribs −K … K lie whole on the print; −1 where not even one does. */
const outermostRib = (printMm: number, pitchMm: number): number =>
  whole(printMm / 2 / pitchMm - 0.5);

/** @throws RangeError that names what is too small for a tile. */
export const tilingOf = (spec: TilingSpec): Tiling => {
  const { sheet, pitchMm } = spec;
  const printAcrossMm =
    ((dotsAcross(sheet) - 2 * spec.bleedAcrossDots) * MM_PER_INCH) / sheet.acrossDpi;
  const last = outermostRib(printAcrossMm, pitchMm);
  if (last < 0) throw new RangeError('print: expected at least one whole rib across it');
  const ribs = 2 * last + 1;
  const ribsOnLens = whole(spec.usableAcrossMm / pitchMm);
  if (ribsOnLens < 1) throw new RangeError('usableAcrossMm: expected at least one rib');
  const alongDots = dotsAlong(sheet) - 2 * spec.bleedAlongDots;
  const dotsOnLens = whole((spec.usableAlongMm * sheet.alongDpi) / MM_PER_INCH);
  if (dotsOnLens < 1) throw new RangeError('usableAlongMm: expected at least one dot');

  const leastAcross = atLeast(ribs / ribsOnLens);
  const leastAlong = atLeast(alongDots / dotsOnLens);
  const across = acrossSpans(spec, last, Math.min(ribs, spec.tilesAcross ?? leastAcross));
  const along = alongSpans(spec, alongDots, Math.min(alongDots, spec.tilesAlong ?? leastAlong));
  const upright = sheet.ribs === 'upright';
  const [columns, rows] = upright ? [across.length, along.length] : [along.length, across.length];
  return {
    rows,
    columns,
    tiles: Array.from({ length: rows * columns }, (_, i) => {
      const row = Math.floor(i / columns);
      const column = i % columns;
      return tileAt(
        upright,
        row,
        column,
        across[upright ? column : row]!,
        along[upright ? row : column]!,
      );
    }),
    mostRibs: Math.max(...across.map((span) => span.ribs)),
    longestMm: Math.max(...along.map((span) => span.toMm - span.fromMm)),
    ribsOnLens,
    leastAcross,
    leastAlong,
  };
};

/** Edges at grooves, (k ± ½) p from the middle, and the nearest dots of the woven sheet. */
const acrossSpans = ({ sheet, pitchMm }: TilingSpec, last: number, count: number): AcrossSpan[] => {
  const halfMm = (dotsAcross(sheet) * MM_PER_INCH) / sheet.acrossDpi / 2;
  const dotAt = (fromMiddleMm: number) =>
    wholeDots(mm(halfMm + fromMiddleMm), dpi(sheet.acrossDpi));
  const parts = evenParts(2 * last + 1, count);
  return parts.slice(1).map((end, i) => {
    const firstRib = parts[i]! - last;
    const fromMm = (firstRib - 0.5) * pitchMm;
    const toMm = (end - last - 0.5) * pitchMm;
    return {
      firstRib,
      ribs: end - parts[i]!,
      fromMm,
      toMm,
      fromDot: dotAt(fromMm),
      toDot: dotAt(toMm),
    };
  });
};

/** Whole dots, as equal as possible: along the ribs no place is better than another. */
const alongSpans = (
  { sheet, bleedAlongDots }: TilingSpec,
  dots: number,
  count: number,
): AlongSpan[] => {
  const dotMm = MM_PER_INCH / sheet.alongDpi;
  const parts = evenParts(dots, count);
  return parts.slice(1).map((end, i) => {
    const start = parts[i]!;
    return {
      fromMm: (start - dots / 2) * dotMm,
      toMm: (end - dots / 2) * dotMm,
      fromDot: bleedAlongDots + start,
      toDot: bleedAlongDots + end,
    };
  });
};

const tileAt = (
  upright: boolean,
  row: number,
  column: number,
  across: AcrossSpan,
  along: AlongSpan,
): Tile => {
  const [x, y] = upright ? [across, along] : [along, across];
  return {
    row,
    column,
    across,
    along,
    trim: { left: x.fromDot, top: y.fromDot, right: x.toDot, bottom: y.toDot },
    leftMm: x.fromMm,
    topMm: y.fromMm,
    widthMm: x.toMm - x.fromMm,
    heightMm: y.toMm - y.fromMm,
  };
};

/**
 * Tiles in laying order: the one nearest the middle first, then outwards across the ribs, then row by row outwards
 * along them. Errors of joining add up from the first tile, so they reach only half as far; and a tile along the ribs
 * finds its neighbour’s ribs already there.
 */
export const layingOrder = ({ tiles }: Tiling): readonly Tile[] => {
  const off = (span: AlongSpan) => Math.abs(span.fromMm + span.toMm) / 2;
  const near = (a: number, b: number) => (Math.abs(a - b) < 1 ? 0 : a - b);
  return [...tiles].sort(
    (a, b) =>
      near(off(a.along), off(b.along)) ||
      a.along.fromMm - b.along.fromMm ||
      near(off(a.across), off(b.across)) ||
      a.across.fromMm - b.across.fromMm,
  );
};
