/** Several prints on one lens sheet as plain data in dots: each print in its place, and what lies around them. */
import { MM_PER_INCH, dpi, mm, wholeDots } from '../../units/units.ts';
import type { SheetSpec } from '../../weave/sheet-spec.ts';
import { dotsAcross, dotsAlong } from '../../weave/sheet-spec.ts';
import type { PageBox, PageSpec } from '../page-spec.ts';
import { pageGrid } from '../page-spec.ts';
import type { GangCut } from './gang-cuts.ts';
import type { GangEdge } from './gang-edge.ts';
import { gangEdge } from './gang-edge.ts';
import type { GangGrid, RibBox } from './gang-grid.ts';
import type { GangLayout } from './gang-layout.ts';
import { cutBand } from './gang-marks.ts';

/** One print, woven at its own woven pitch about its own middle. */
export interface PlacedSheet {
  readonly sheet: SheetSpec;
  /** Index of its frames among the stacks of the request. */
  readonly stack: number;
  /** Its first dot, from the top left corner of the lens sheet. */
  readonly left: number;
  readonly top: number;
  /** Distance from the middle of its dots to the middle of the rib, across the ribs; less than a dot. */
  readonly slideMm: number;
}

export interface GangSpec {
  /** The paper; `woven` and `trim` are the lens sheet on it. */
  readonly page: PageSpec;
  /** All dots of the lens sheet, and the grating of its rails. */
  readonly whole: SheetSpec;
  readonly placed: readonly PlacedSheet[];
  /** Light grey cut lines, from the top left corner of the lens sheet. */
  readonly lines: readonly PageBox[];
}

/** The sheet of one job in this layout, and the index of its stack. */
export interface GangPrint {
  readonly sheet: SheetSpec;
  readonly stack: number;
}

export interface GangPlan {
  readonly grid: GangGrid;
  readonly layout: GangLayout;
  readonly prints: ReadonlyMap<string, GangPrint>;
  readonly ribs: SheetSpec['ribs'];
  readonly acrossDpi: number;
  readonly alongDpi: number;
  /** For the rails: woven pitch for an eye in front of the middle of the whole sheet. */
  readonly viewingPitchMm: number;
  readonly rails: boolean;
  /** A crop mark for every cut, in the free edge. */
  readonly marks: boolean;
  /** Empty: neither label nor arrow. */
  readonly label: string;
  /** Unit of the measuring bar; left out: no bar. */
  readonly barIn?: 'mm' | 'in';
  /** Left out: the file is as large as the lens sheet. */
  readonly paper?: {
    readonly widthMm: number;
    readonly heightMm: number;
    /** Place of the lens sheet’s top left corner on the paper. */
    readonly leftMm: number;
    readonly topMm: number;
  };
}

export const gangSpecOf = (plan: GangPlan): GangSpec => {
  const { grid, layout, ribs, acrossDpi, alongDpi } = plan;
  const upright = ribs === 'upright';
  const across = (lengthMm: number) => wholeDots(mm(lengthMm), dpi(acrossDpi));
  const along = (lengthMm: number) => wholeDots(mm(lengthMm), dpi(alongDpi));
  const [acrossDots, alongDots] = [across(grid.acrossMm), along(grid.alongMm)];
  // Everything is counted from the middle of the sheet, which is the middle of a rib.
  const asBox = (box: RibBox): PageBox => {
    const [a, b] = box.across.map((at) => Math.round(acrossAt(at)));
    const [c, d] = box.along.map((at) => along(at));
    const sides = [a!, Math.max(a! + 1, b!)] as const;
    const ends = [c!, Math.max(c! + 1, d!)] as const;
    const [x, y] = upright ? [sides, ends] : [ends, sides];
    return { left: x[0], right: x[1], top: y[0], bottom: y[1] };
  };
  /** A place on the sheet in dots, not rounded. */
  const acrossAt = (fromEdgeMm: number) =>
    acrossDots / 2 + ((fromEdgeMm - grid.acrossMm / 2) * acrossDpi) / MM_PER_INCH;

  const whole: SheetSpec = {
    widthDots: upright ? acrossDots : alongDots,
    heightDots: upright ? alongDots : acrossDots,
    acrossDpi,
    alongDpi,
    ribs,
    viewingPitchMm: plan.viewingPitchMm,
    lensPitchMm: grid.pitchMm,
    offsetMm: 0,
    viewSlots: 1,
    columns: 'blended',
  };
  const placed = layout.places.flatMap((place): PlacedSheet[] => {
    const print = plan.prints.get(place.id);
    if (print === undefined) return [];
    const middle = acrossAt(grid.firstGrooveMm + (place.firstRib + place.ribs / 2) * grid.pitchMm);
    const own = dotsAcross(print.sheet);
    const first = Math.round(middle - own / 2);
    const alongMiddle = grid.edgeMm + (place.topUm + place.alongUm / 2) / 1000;
    const line = Math.round((alongMiddle * alongDpi) / MM_PER_INCH - dotsAlong(print.sheet) / 2);
    const slideMm = ((middle - first - own / 2) * MM_PER_INCH) / acrossDpi;
    return [{ ...print, left: upright ? first : line, top: upright ? line : first, slideMm }];
  });
  return {
    page: pageOf(plan, whole, asBox),
    whole,
    placed,
    lines: layout.cuts.flatMap((cut) => lineOf(grid, cut)).map(asBox),
  };
};

/** What is printed in the free edge of a plan's lens sheet. */
export const edgeOf = ({ layout, ribs, ...plan }: GangPlan): GangEdge =>
  gangEdge({ ...plan, cuts: layout.cuts, upright: ribs === 'upright' });

const pageOf = (plan: GangPlan, whole: SheetSpec, asBox: (box: RibBox) => PageBox): PageSpec => {
  const { paper } = plan;
  const { x, y, dots } = pageGrid(whole);
  const { rails, words, marks } = edgeOf(plan);
  const [left, top] = [x(paper?.leftMm ?? 0), y(paper?.topMm ?? 0)];
  const onPage = (box: PageBox): PageBox => ({
    left: box.left + left,
    right: box.right + left,
    top: box.top + top,
    bottom: box.bottom + top,
  });
  const sheet = onPage({ left: 0, top: 0, right: whole.widthDots, bottom: whole.heightDots });
  return {
    widthDots: paper === undefined ? whole.widthDots : x(paper.widthMm),
    heightDots: paper === undefined ? whole.heightDots : y(paper.heightMm),
    woven: sheet,
    trim: sheet,
    rails: rails.map(asBox).map(onPage),
    ink: [...marks.strokes.map(asBox), ...[...words, ...marks.numbers].map(dots)].map(onPage),
  };
};

/**
 * Along a groove: the whole rib beside it that is cut off, so that it shows grey from everywhere. Across the ribs: a
 * thin line outside the print. None where prints touch.
 */
const lineOf = (grid: GangGrid, cut: GangCut): RibBox[] => {
  const { way, from, to, waste } = cut;
  if (waste === 'none') return [];
  const ribMm = (ribs: number) => grid.firstGrooveMm + ribs * grid.pitchMm;
  const alongMm = (um: number) => grid.edgeMm + um / 1000;
  const band = cutBand(grid, cut);
  return way === 'along'
    ? [{ across: band, along: [alongMm(from), alongMm(to)] }]
    : [{ across: [ribMm(from), ribMm(to)], along: band }];
};
