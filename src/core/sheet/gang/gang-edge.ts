/**
 * What is printed in the free edge of the lens sheet: rails next to the prints, and outside them, in the rim, the
 * label, the measuring bar and a crop mark for every cut.
 */
import {
  barName,
  drawableText,
  lettering,
  textHeightMm,
  textWidthMm,
} from '../../pitch/lettering.ts';
import { MM_PER_INCH } from '../../units/units.ts';
import { ARROW_MM, arrow, barFigures, barLengthMm, barLines } from '../arrow-and-bar.ts';
import type { BoxMm } from '../page-spec.ts';
import { boxOf } from '../page-spec.ts';
import type { GangCut } from './gang-cuts.ts';
import type { GangGrid, RibBox } from './gang-grid.ts';
import { GAP_MM, hasRoomForWords, railWidthMm, rimMm } from './gang-rim.ts';
import type { CropMarks } from './gang-marks.ts';
import { cropMarks } from './gang-marks.ts';

const SQUARE_MM = 0.25;
const LINE_HEIGHT_MM = textHeightMm(SQUARE_MM);
/** Blank between the label or the bar and the edge of the sheet. */
const BLANK_MM = 0.5;

export interface EdgePlan {
  readonly grid: GangGrid;
  readonly cuts: readonly GangCut[];
  readonly upright: boolean;
  readonly rails: boolean;
  /** A crop mark for every cut. */
  readonly marks: boolean;
  /** One line; empty: neither label nor arrow. */
  readonly label: string;
  /** Unit of the measuring bar; left out: no bar. */
  readonly barIn?: 'mm' | 'in';
}

export interface GangEdge {
  readonly rails: readonly RibBox[];
  /** Label, arrow and bar, millimetres from the top left corner of the lens sheet in the file. */
  readonly words: readonly BoxMm[];
  readonly marks: CropMarks;
}

/** The size of the lens sheet in the file. */
const sizeOf = ({ grid, upright }: EdgePlan) => {
  const { acrossMm, alongMm } = grid;
  return upright ? { width: acrossMm, height: alongMm } : { width: alongMm, height: acrossMm };
};

export const gangEdge = (plan: EdgePlan): GangEdge => {
  const { grid, cuts, upright } = plan;
  const words = wordsIn(plan);
  const rim = rimMm(grid.edgeMm, plan.rails);
  return {
    rails: plan.rails ? railsIn(grid) : [],
    words: words.flatMap(({ boxes }) => boxes),
    marks: plan.marks
      ? cropMarks({ grid, cuts, upright, rimMm: rim, taken: words.map(({ room }) => room) })
      : { strokes: [], numbers: [], unmarked: 0, unnumbered: 0 },
  };
};

/** Rails inside the edge of the lens sheet: only what lies under the lens can be judged through it. */
const railsIn = ({ acrossMm, alongMm, edgeMm }: GangGrid): RibBox[] => {
  const width = railWidthMm(edgeMm);
  if (width === 0 || Math.min(acrossMm, alongMm) <= 2 * edgeMm) return [];
  const near = [edgeMm - GAP_MM - width, edgeMm - GAP_MM] as const;
  const far = (size: number) => [size - near[1], size - near[0]] as const;
  const sides = [edgeMm, alongMm - edgeMm] as const;
  const ends = [edgeMm, acrossMm - edgeMm] as const;
  return [
    { across: near, along: sides },
    { across: far(acrossMm), along: sides },
    { across: ends, along: near },
    { across: ends, along: far(alongMm) },
  ];
};

/** Boxes of one thing, and the room that they take. */
interface Taken {
  readonly room: BoxMm;
  readonly boxes: readonly BoxMm[];
}

/** The label in the bottom strip of the file, cut to its room, the arrow in the corner before it, and the bar. */
const wordsIn = (plan: EdgePlan): Taken[] => {
  const { width, height } = sizeOf(plan);
  const { edgeMm } = plan.grid;
  if (!hasRoomForWords(edgeMm)) return [];
  const across = width - 2 * edgeMm;
  const top = height - BLANK_MM - LINE_HEIGHT_MM;
  let text = drawableText(plan.label);
  while (text !== '' && textWidthMm(text, SQUARE_MM) > across) text = text.slice(0, -1);
  const textMm = textWidthMm(text, SQUARE_MM);
  const bar = plan.barIn === undefined ? [] : barIn(plan, plan.barIn, textMm);
  if (text === '') return bar;
  const arrowTop = height - 0.3 - ARROW_MM;
  return [
    {
      // So far aside a cut’s number is no part of the text.
      room: { left: edgeMm - 1, top, width: textMm + 2, height: LINE_HEIGHT_MM },
      boxes: lettering(text, edgeMm, top, SQUARE_MM).map(boxOf),
    },
    {
      room: { left: BLANK_MM, top: arrowTop, width: ARROW_MM, height: ARROW_MM },
      boxes: arrow(BLANK_MM, arrowTop, SQUARE_MM),
    },
    ...bar,
  ];
};

/** Shorter than this beside the label, the bar goes into the top strip. */
const SHORT_BAR_MM = { mm: 50, in: 2 * MM_PER_INCH } as const;
const BAR_GAP_MM = 1;

/** The bar at the right of the label where there is room, else at the left of the top strip. */
const barIn = (plan: EdgePlan, unit: 'mm' | 'in', labelMm: number): Taken[] => {
  const { width, height } = sizeOf(plan);
  const { edgeMm } = plan.grid;
  const figuresMm = textWidthMm(barName(SHORT_BAR_MM[unit] * 2, unit), SQUARE_MM) + BAR_GAP_MM;
  const whole = width - 2 * edgeMm - figuresMm;
  const beside = barLengthMm(whole - (labelMm > 0 ? labelMm + 3 * BAR_GAP_MM : 0), unit);
  const low = beside >= SHORT_BAR_MM[unit] - 1e-9;
  const lengthMm = low ? beside : barLengthMm(whole, unit);
  if (lengthMm === 0) return [];
  const left = low ? width - edgeMm - lengthMm - figuresMm : edgeMm;
  const top = low ? height - BLANK_MM - LINE_HEIGHT_MM : BLANK_MM;
  const figuresAt = [left + lengthMm + BAR_GAP_MM, top] as const;
  return [
    {
      room: { left, top, width: lengthMm + figuresMm, height: LINE_HEIGHT_MM },
      boxes: [
        ...barLines({ left, top, lengthMm, tickMm: LINE_HEIGHT_MM }),
        ...barFigures(lengthMm, unit, figuresAt, SQUARE_MM),
      ],
    },
  ];
};
