/**
 * Crop marks for the cuts: where a cut, or the line that it lies on, meets the edge of the lens sheet, a black stroke in
 * the rim, with the cut's number where there is room.
 */
import { lettering, textHeightMm, textWidthMm } from '../../pitch/lettering.ts';
import type { BoxMm } from '../page-spec.ts';
import { boxOf } from '../page-spec.ts';
import type { GangCut } from './gang-cuts.ts';
import type { GangGrid, RibBox } from './gang-grid.ts';
import { LEAST_STROKE_MM } from './gang-rim.ts';

export interface CropMarks {
  readonly strokes: readonly RibBox[];
  /** Figures, millimetres from the top left corner of the lens sheet in the file. */
  readonly numbers: readonly BoxMm[];
  /** Cuts that have no stroke at either end, and those that have a stroke but no number. */
  readonly unmarked: number;
  readonly unnumbered: number;
}

interface MarksPlan {
  readonly grid: GangGrid;
  readonly cuts: readonly GangCut[];
  readonly upright: boolean;
  /** Depth of the strip at the edge of the sheet that strokes and numbers may take. */
  readonly rimMm: number;
  /** What lies in it already: millimetres from the top left corner of the lens sheet in the file. */
  readonly taken: readonly BoxMm[];
}

/** Strokes of cuts across the ribs; those along them are as wide as a rib. */
const LINE_MM = 0.2;
const CLEAR_MM = 0.25;
const ASIDE_MM = 0.4;
/** Squares of the figures: those of the label, or smaller where these find no room. */
const SQUARES_MM = [0.25, 0.18] as const;
const LINES_APART_MM = 0.5;

/** Cuts on one line with the waste on one side: one stroke at each end. */
interface Line {
  readonly cut: GangCut;
  /** As in the cutting list, from 1. */
  readonly numbers: readonly number[];
}

const linesOf = (cuts: readonly GangCut[]): Line[] => {
  const lines = new Map<string, { cut: GangCut; numbers: number[] }>();
  cuts.forEach((cut, index) => {
    const key = `${cut.way} ${cut.at} ${cut.waste}`;
    const line = lines.get(key);
    if (line === undefined) lines.set(key, { cut, numbers: [index + 1] });
    else line.numbers.push(index + 1);
  });
  return [...lines.values()];
};

/**
 * Where a cut's line and its strokes lie, in millimetres from the first edge. Along a groove: whole ribs beside it, so
 * that the stroke is black from everywhere under the lens; where prints touch, those on both sides.
 */
export const cutBand = (grid: GangGrid, { way, at, waste }: GangCut): readonly [number, number] => {
  const [before, after] = [waste !== 'after' ? 1 : 0, waste !== 'before' ? 1 : 0];
  if (way === 'along')
    return [
      Math.max(0, grid.firstGrooveMm + (at - before) * grid.pitchMm),
      Math.min(grid.acrossMm, grid.firstGrooveMm + (at + after) * grid.pitchMm),
    ];
  const line = grid.edgeMm + at / 1000;
  const share = LINE_MM / (before + after);
  return [line - before * share, line + after * share];
};

const meets = (a: BoxMm, b: BoxMm): boolean =>
  a.left < b.left + b.width + CLEAR_MM &&
  b.left < a.left + a.width + CLEAR_MM &&
  a.top < b.top + b.height + CLEAR_MM &&
  b.top < a.top + a.height + CLEAR_MM;

/** A side of the file's sheet that a line meets. */
type Side = 'left' | 'right' | 'top' | 'bottom';

/** A stroke as it lies in the file; undefined where too little of the rim is free. */
const strokeAt = (
  side: Side,
  [from, to]: readonly [number, number],
  { grid, upright, rimMm, taken }: MarksPlan,
): BoxMm | undefined => {
  const [width, height] = upright ? [grid.acrossMm, grid.alongMm] : [grid.alongMm, grid.acrossMm];
  const boxOfDepth = (outer: number): BoxMm => {
    const deep = rimMm - outer;
    if (side === 'top') return { left: from, top: outer, width: to - from, height: deep };
    if (side === 'left') return { left: outer, top: from, width: deep, height: to - from };
    return side === 'bottom'
      ? { left: from, top: height - rimMm, width: to - from, height: deep }
      : { left: width - rimMm, top: from, width: deep, height: to - from };
  };
  let outer = 0;
  for (const box of taken) {
    if (!meets(boxOfDepth(0), box)) continue;
    const innerEnd = {
      top: box.top + box.height,
      left: box.left + box.width,
      bottom: height - box.top,
      right: width - box.left,
    }[side];
    outer = Math.max(outer, innerEnd + CLEAR_MM);
  }
  return rimMm - outer < LEAST_STROKE_MM ? undefined : boxOfDepth(outer);
};

const sidesOf = (way: GangCut['way'], upright: boolean): readonly Side[] =>
  (way === 'along') === upright ? ['top', 'bottom'] : ['left', 'right'];

/** Lines of figures, and the room they take: beside one another along the top and bottom, else one below the other. */
const figuresOf = (numbers: readonly number[], side: Side, squareMm: number) => {
  const lines = side === 'top' || side === 'bottom' ? [numbers.join(' ')] : numbers.map(String);
  const feed = textHeightMm(squareMm) + LINES_APART_MM;
  return {
    lines,
    feed,
    width: Math.max(...lines.map((line) => textWidthMm(line, squareMm))),
    height: lines.length * feed - LINES_APART_MM,
  };
};

/** Places beside a stroke, the first before it on the print's own side, at the inner end of the rim. */
const placesBeside = (
  stroke: BoxMm,
  side: Side,
  { width, height }: { readonly width: number; readonly height: number },
  waste: GangCut['waste'],
): BoxMm[] => {
  const order = waste === 'after' ? (['before', 'after'] as const) : (['after', 'before'] as const);
  return order.map((where) => {
    const before = where === 'before';
    if (side === 'top' || side === 'bottom')
      return {
        left: before ? stroke.left - ASIDE_MM - width : stroke.left + stroke.width + ASIDE_MM,
        top: side === 'top' ? stroke.top + stroke.height - height : stroke.top,
        width,
        height,
      };
    return {
      left: side === 'left' ? stroke.left + stroke.width - width : stroke.left,
      top: before ? stroke.top - ASIDE_MM - height : stroke.top + stroke.height + ASIDE_MM,
      width,
      height,
    };
  });
};

export const cropMarks = (plan: MarksPlan): CropMarks => {
  const { grid, upright } = plan;
  const [width, height] = upright ? [grid.acrossMm, grid.alongMm] : [grid.alongMm, grid.acrossMm];
  const lines = linesOf(plan.cuts);
  const marked = lines.map((line) => ({
    line,
    strokes: sidesOf(line.cut.way, upright).flatMap((side) => {
      const box = strokeAt(side, cutBand(grid, line.cut), plan);
      return box === undefined ? [] : [{ side, box }];
    }),
  }));
  const taken = [...plan.taken, ...marked.flatMap(({ strokes }) => strokes.map(({ box }) => box))];
  const fits = (side: Side, box: BoxMm): boolean => {
    const deep = side === 'top' || side === 'bottom' ? box.height : box.width;
    const inSheet =
      Math.min(box.left, box.top) >= CLEAR_MM &&
      box.left + box.width <= width - CLEAR_MM &&
      box.top + box.height <= height - CLEAR_MM;
    return deep <= plan.rimMm - CLEAR_MM && inSheet && !taken.some((other) => meets(box, other));
  };
  /** Figures at one stroke, in the larger squares first. */
  const numbered = ({ numbers, cut }: Line, side: Side, stroke: BoxMm): BoxMm[] => {
    for (const squareMm of SQUARES_MM) {
      const figures = figuresOf(numbers, side, squareMm);
      const room = placesBeside(stroke, side, figures, cut.waste).find((box) => fits(side, box));
      if (room === undefined) continue;
      taken.push(room);
      return figures.lines.flatMap((text, row) =>
        lettering(text, room.left, room.top + row * figures.feed, squareMm).map(boxOf),
      );
    }
    return [];
  };
  let [unmarked, unnumbered] = [0, 0];
  const numbers: BoxMm[] = [];
  for (const { line, strokes } of marked) {
    const figures = strokes.flatMap(({ side, box }) => numbered(line, side, box));
    numbers.push(...figures);
    if (strokes.length === 0) unmarked += line.numbers.length;
    else if (figures.length === 0) unnumbered += line.numbers.length;
  }
  const inRibs = ({ left, top, width: wide, height: high }: BoxMm): RibBox => {
    const [x, y] = [[left, left + wide] as const, [top, top + high] as const];
    return upright ? { across: x, along: y } : { across: y, along: x };
  };
  return {
    strokes: marked.flatMap(({ strokes }) => strokes.map(({ box }) => inRibs(box))),
    numbers,
    unmarked,
    unnumbered,
  };
};
