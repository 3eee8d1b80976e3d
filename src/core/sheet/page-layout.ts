/** Lays out the page around the print: rails, marks, label and bar, in dots of the page. */
import { drawableText, lettering, textHeightMm, textWidthMm } from '../pitch/lettering.ts';
import type { SheetSpec } from '../weave/sheet-spec.ts';
import { ARROW_MM, arrow, barFigures, barLengthMm, barLines } from './arrow-and-bar.ts';
import type { BoxMm, PageBox, PageSpec } from './page-spec.ts';
import { boxOf, pageGrid } from './page-spec.ts';

/** Millimetres from the top left corner of the paper. */
export interface PagePlan {
  readonly paperWidthMm: number;
  readonly paperHeightMm: number;
  /** Top left corner of the trim. */
  readonly leftMm: number;
  readonly topMm: number;
  readonly trimWidthMm: number;
  readonly trimHeightMm: number;
  readonly bleedMm: number;
  readonly rails: boolean;
  readonly marks: boolean;
  /** A line above the label, in larger letters as far as the width of the print allows; left out: none. */
  readonly heading?: string;
  /** Lines of the label, without the arrow; empty: no label. */
  readonly label: readonly string[];
  /** Room to number and sign the print by hand, below the label; left out: none. */
  readonly signLine?: boolean;
  /** Unit of the measuring bar; left out: no bar. */
  readonly barIn?: 'mm' | 'in';
}

/** Gap between the things printed around the picture. */
export const GAP_MM = 1;
const RAIL_MM = 6;
const MARK_MM = 5;
const LINE_MM = 0.2;
const SQUARE_MM = 0.25;
const LINE_FEED_MM = textHeightMm(SQUARE_MM) + 0.8;
const BAR_TICK_MM = 3;
const HEADING_SQUARE_MM = 0.6;
const HEADING_GAP_MM = 1.2;
/** From the label to the line: handwriting is some 5 mm high, common practice. */
const SIGN_ROOM_MM = 9;

/** How far outside the trim anything is printed, on each side. */
export interface Reach {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

const railReach = (plan: PagePlan) => plan.bleedMm + (plan.rails ? GAP_MM + RAIL_MM : 0);
const markReach = (plan: PagePlan) => railReach(plan) + (plan.marks ? GAP_MM + MARK_MM : 0);
const labelLines = (plan: PagePlan) => plan.label.flatMap((line) => wrapped(line, plan));
const labelRoom = (plan: PagePlan) => plan.trimWidthMm - ARROW_MM - 1;

/** Side of a square of the heading’s letters. */
const headingSquare = ({ heading = '', ...plan }: PagePlan): number =>
  Math.max(
    SQUARE_MM,
    Math.min(HEADING_SQUARE_MM, labelRoom(plan) / textWidthMm(drawableText(heading), 1)),
  );
const headingFeed = (plan: PagePlan) =>
  plan.heading === undefined ? 0 : textHeightMm(headingSquare(plan)) + HEADING_GAP_MM;

export const reachOf = (plan: PagePlan): Reach => {
  const side = markReach(plan);
  const lines = labelLines(plan).length;
  const label = lines === 0 ? 0 : GAP_MM + headingFeed(plan) + lines * LINE_FEED_MM;
  const sign = plan.signLine === true ? SIGN_ROOM_MM + LINE_MM : 0;
  const bar = plan.barIn === undefined ? 0 : GAP_MM + BAR_TICK_MM + LINE_FEED_MM;
  return { left: side, top: side, right: side, bottom: side + label + sign + bar };
};

/**
 * @param sheet the woven sheet with its bleed; its dots are laid out as they are.
 * @param part the part of the sheet that is the print, in its dots; left out: all but the bleed.
 */
export const pageSpecOf = (plan: PagePlan, sheet: SheetSpec, part?: PageBox): PageSpec => {
  const { x, y, dots } = pageGrid(sheet);
  const trimLeft = x(plan.leftMm);
  const trimTop = y(plan.topMm);
  const [bleedX, bleedY] = [x(plan.bleedMm), y(plan.bleedMm)];
  const cut = part ?? {
    left: bleedX,
    top: bleedY,
    right: sheet.widthDots - bleedX,
    bottom: sheet.heightDots - bleedY,
  };
  const woven = {
    left: trimLeft - cut.left,
    top: trimTop - cut.top,
    right: trimLeft - cut.left + sheet.widthDots,
    bottom: trimTop - cut.top + sheet.heightDots,
  };
  const trim = {
    left: trimLeft,
    top: trimTop,
    right: trimLeft + cut.right - cut.left,
    bottom: trimTop + cut.bottom - cut.top,
  };
  return {
    widthDots: x(plan.paperWidthMm),
    heightDots: y(plan.paperHeightMm),
    woven,
    ...(part === undefined ? {} : { shown: grownWithin(trim, bleedX, bleedY, woven) }),
    trim,
    rails: plan.rails ? railsOf(plan).map(dots) : [],
    ink: [
      ...(plan.marks ? marksOf(plan) : []),
      ...labelOf(plan),
      ...signLinesOf(plan),
      ...(plan.barIn === undefined ? [] : barOf(plan, plan.barIn)),
    ].map(dots),
  };
};

/** A box grown on all sides, as far as another reaches. */
const grownWithin = (box: PageBox, byX: number, byY: number, within: PageBox): PageBox => ({
  left: Math.max(box.left - byX, within.left),
  top: Math.max(box.top - byY, within.top),
  right: Math.min(box.right + byX, within.right),
  bottom: Math.min(box.bottom + byY, within.bottom),
});

/** Left, right, top and bottom rail, each as long as its side of the print. */
export const railsOf = (plan: PagePlan): BoxMm[] => {
  const { leftMm: left, topMm: top, trimWidthMm: width, trimHeightMm: height } = plan;
  const off = plan.bleedMm + GAP_MM;
  // Crop marks run out through the corners; the rails keep clear of them.
  const [inX, inY] = [Math.min(1, width / 8), Math.min(1, height / 8)];
  const upDown = { top: top + inY, width: RAIL_MM, height: height - 2 * inY };
  const sideways = { left: left + inX, width: width - 2 * inX, height: RAIL_MM };
  return [
    { ...upDown, left: left - off - RAIL_MM },
    { ...upDown, left: left + width + off },
    { ...sideways, top: top - off - RAIL_MM },
    { ...sideways, top: top + height + off },
  ];
};

/** Two strokes at each corner, in line with the trim and beyond the bleed; one at the middle of each side. */
const marksOf = (plan: PagePlan): BoxMm[] => {
  const { leftMm: left, topMm: top, trimWidthMm: width, trimHeightMm: height } = plan;
  const off = plan.bleedMm + GAP_MM;
  const stroke = (atX: number, atY: number, lying: boolean): BoxMm => ({
    left: lying ? atX : atX - LINE_MM / 2,
    top: lying ? atY - LINE_MM / 2 : atY,
    width: lying ? MARK_MM : LINE_MM,
    height: lying ? LINE_MM : MARK_MM,
  });
  const corners = [left, left + width].flatMap((cornerX) =>
    [top, top + height].flatMap((cornerY) => [
      stroke(cornerX === left ? left - off - MARK_MM : cornerX + off, cornerY, true),
      stroke(cornerX, cornerY === top ? top - off - MARK_MM : cornerY + off, false),
    ]),
  );
  const out = railReach(plan) + GAP_MM;
  const middle = [left + width / 2, top + height / 2] as const;
  return [
    ...corners,
    stroke(left - out - MARK_MM, middle[1], true),
    stroke(left + width + out, middle[1], true),
    stroke(middle[0], top - out - MARK_MM, false),
    stroke(middle[0], top + height + out, false),
  ];
};

/** The line broken into lines that fit under the print; a word too long for one is cut. */
const wrapped = (line: string, plan: PagePlan): string[] => {
  const room = labelRoom(plan);
  const fits = (text: string) => textWidthMm(text, SQUARE_MM) <= room;
  const lines: string[] = [];
  for (const word of drawableText(line).split(' ')) {
    const longer = lines.length === 0 ? word : `${lines.at(-1)!} ${word}`;
    if (lines.length > 0 && fits(longer)) lines[lines.length - 1] = longer;
    else {
      let cut = word;
      while (cut !== '' && !fits(cut)) cut = cut.slice(0, -1);
      if (cut !== '') lines.push(cut);
    }
  }
  return lines;
};

/** The label, with an arrow before it that points to the top edge of the file. */
const labelOf = (plan: PagePlan): BoxMm[] => {
  const lines = labelLines(plan);
  if (lines.length === 0) return [];
  const top = plan.topMm + plan.trimHeightMm + markReach(plan) + GAP_MM;
  const left = plan.leftMm + ARROW_MM + 1;
  const words = lines.flatMap((line, number) =>
    lettering(line, left, top + headingFeed(plan) + number * LINE_FEED_MM, SQUARE_MM),
  );
  const heading = lettering(drawableText(plan.heading ?? ''), left, top, headingSquare(plan));
  return [...arrow(plan.leftMm, top, SQUARE_MM), ...[...heading, ...words].map(boxOf)];
};

/** A line for the number, as long as a fifth of the print, and one for the name along the rest. */
const signLinesOf = (plan: PagePlan): BoxMm[] => {
  if (plan.signLine !== true) return [];
  const lines = labelLines(plan).length;
  const label = lines === 0 ? 0 : GAP_MM + headingFeed(plan) + lines * LINE_FEED_MM;
  const top = plan.topMm + plan.trimHeightMm + markReach(plan) + label + SIGN_ROOM_MM;
  const parts = [
    { word: 'NO.', from: 0, to: 0.28 },
    { word: 'SIGNED', from: 0.33, to: 1 },
  ];
  return parts.flatMap(({ word, from, to }) => {
    const left = plan.leftMm + from * plan.trimWidthMm;
    const right = plan.leftMm + to * plan.trimWidthMm;
    const begin = left + textWidthMm(word, SQUARE_MM) + GAP_MM;
    return [
      ...lettering(word, left, top - textHeightMm(SQUARE_MM), SQUARE_MM).map(boxOf),
      { left: begin, top, width: Math.max(0, right - begin), height: LINE_MM },
    ];
  });
};

const barOf = (plan: PagePlan, unit: 'mm' | 'in'): BoxMm[] => {
  const lengthMm = barLengthMm(plan.trimWidthMm, unit);
  if (lengthMm === 0) return [];
  const left = plan.leftMm;
  const { bottom } = reachOf(plan);
  const top = plan.topMm + plan.trimHeightMm + bottom - BAR_TICK_MM - LINE_FEED_MM;
  return [
    ...barLines({ left, top, lengthMm, tickMm: BAR_TICK_MM }),
    ...barFigures(lengthMm, unit, [left, top + BAR_TICK_MM + 0.5], SQUARE_MM),
  ];
};
