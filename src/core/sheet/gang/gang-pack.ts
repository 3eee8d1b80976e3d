// eslint-disable-next-line @typescript-eslint/triple-slash-reference -- declares a module, and is none.
/// <reference path="./maxrects.d.ts" />
/**
 * Ways to arrange prints on the grid: in rows, in columns, and by a packing library. None is turned: its picture
 * would lie across the ribs.
 */
import { MaxRectsBin, PACKING_LOGIC } from 'maxrects-packer/dist/maxrects-packer.mjs';
import type { GangBox } from './gang-cuts.ts';
import type { GangGrid } from './gang-grid.ts';
import { MOST_PLACES } from './gang-grid.ts';

/** One print as it is cut. */
export interface GangPiece {
  readonly id: string;
  readonly ribs: number;
  readonly alongUm: number;
}

export interface GangWant extends GangPiece {
  /** `fill`: as many as fit after all others; only one want may ask for it. */
  readonly copies: number | 'fill';
}

export interface GangPlace extends GangBox {
  readonly id: string;
}

/** Places one piece after the other; undefined where there is no room. */
type Layer = (piece: GangPiece) => GangPlace | undefined;

const placeOf = (piece: GangPiece, firstRib: number, topUm: number): GangPlace => ({
  ...piece,
  firstRib,
  topUm,
});

interface Shelf {
  /** Start, thickness and filled length. */
  readonly at: number;
  readonly thick: number;
  filled: number;
}

/** Rows (filled across the ribs) or columns, each as thick as its first print. */
const shelves =
  (run: 'rows' | 'columns') =>
  (grid: GangGrid): Layer => {
    const rows = run === 'rows';
    const [length, depth] = rows ? [grid.ribs, grid.alongUm] : [grid.alongUm, grid.ribs];
    const [gap, depthGap] = rows ? [grid.gapRibs, grid.gapUm] : [grid.gapUm, grid.gapRibs];
    const all: Shelf[] = [];
    return (piece) => {
      const [size, thick] = rows ? [piece.ribs, piece.alongUm] : [piece.alongUm, piece.ribs];
      const last = all.at(-1);
      const next = last === undefined ? 0 : last.at + last.thick + depthGap;
      let shelf = all.find((one) => one.thick >= thick && one.filled + size <= length);
      if (shelf === undefined && next + thick <= depth && size <= length) {
        shelf = { at: next, thick, filled: 0 };
        all.push(shelf);
      }
      if (shelf === undefined) return undefined;
      const along = shelf.filled;
      shelf.filled += size + gap;
      return rows ? placeOf(piece, along, shelf.at) : placeOf(piece, shelf.at, along);
    };
  };

/** Each print with a gap after it, on a sheet larger by one gap. */
const packed =
  (logic: PACKING_LOGIC) =>
  (grid: GangGrid): Layer => {
    const { ribs, alongUm, gapRibs, gapUm } = grid;
    const options = { smart: false, pot: false, square: false, allowRotation: false, logic };
    const bin = new MaxRectsBin(ribs + gapRibs, alongUm + gapUm, 0, options);
    return (piece) => {
      const rect = bin.add(piece.ribs + gapRibs, piece.alongUm + gapUm, null);
      return rect && placeOf(piece, rect.x, rect.y);
    };
  };

const layers = [
  shelves('rows'),
  shelves('columns'),
  packed(PACKING_LOGIC.MAX_AREA),
  packed(PACKING_LOGIC.MAX_EDGE),
];

const area = (piece: GangPiece) => piece.ribs * piece.alongUm;
const orders: readonly ((a: GangPiece, b: GangPiece) => number)[] = [
  (a, b) => b.alongUm - a.alongUm || b.ribs - a.ribs,
  (a, b) => b.ribs - a.ribs || b.alongUm - a.alongUm,
  (a, b) => area(b) - area(a),
];

/** Places all counted prints in order, then as many of the filling one as fit. */
const layAll = (lay: Layer, wants: readonly GangWant[], order: (typeof orders)[number]) => {
  const places: GangPlace[] = [];
  const counted = wants
    .flatMap((want) =>
      want.copies === 'fill' ? [] : new Array<GangPiece>(want.copies).fill(pieceOf(want)),
    )
    .sort(order);
  for (const piece of counted) {
    const place = places.length < MOST_PLACES ? lay(piece) : undefined;
    if (place !== undefined) places.push(place);
  }
  const filling = wants.find(({ copies }) => copies === 'fill');
  while (filling !== undefined && places.length < MOST_PLACES) {
    const place = lay(pieceOf(filling));
    if (place === undefined) break;
    places.push(place);
  }
  return places;
};

const pieceOf = ({ id, ribs, alongUm }: GangWant): GangPiece => ({ id, ribs, alongUm });

/** All arrangements that were tried; some may be equal. */
export const gangPackings = (grid: GangGrid, wants: readonly GangWant[]): GangPlace[][] =>
  orders.flatMap((order) => layers.map((layer) => layAll(layer(grid), wants, order)));
