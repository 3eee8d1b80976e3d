/** Lays out the page to pin up, in the largest type with which everything fits on one page. */
import type { PageContent } from './page-content.ts';
import type { Piece, Run, WidthOf } from './text-flow.ts';
import { flow, withBoldMeasures } from './text-flow.ts';

/** Points, from the page's top left corner; a text's y is its base line. */
export type Mark =
  | ({ readonly kind: 'text'; readonly y: number; readonly size: number } & Piece)
  | { readonly kind: 'box'; readonly x: number; readonly y: number; readonly side: number }
  | { readonly kind: 'rule'; readonly x: number; readonly y: number; readonly width: number };

export interface PageLayout {
  readonly marks: readonly Mark[];
  /** Of the steps, in points. */
  readonly typeSize: number;
}

export interface PageSize {
  readonly width: number;
  readonly height: number;
}

/** 14 mm: more than the printer margin of any desktop printer, with room for pins. */
export const MARGIN_PT = 40;
const LARGEST_TYPE = 14;
const SMALLEST_TYPE = 5;
const LEADING = 1.22;

/** Stacks things from top to bottom. */
const column = (width: number, widthOf: WidthOf) => {
  const marks: Mark[] = [];
  let y = 0;
  return {
    marks,
    height: () => y,
    gap: (height: number) => {
      y += height;
    },
    rule: () => {
      marks.push({ kind: 'rule', x: 0, y, width });
    },
    /** A heading with a line after it to the end of the column. */
    ruled: (text: string, size: number) => {
      const x = widthOf(`${text} `, size, false);
      marks.push({ kind: 'text', text, isBold: false, x: 0, y: y + size * 0.95, size });
      marks.push({ kind: 'rule', x, y: y + size * 0.65, width: width - x });
      y += size * LEADING;
    },
    box: (side: number) => {
      marks.push({ kind: 'box', x: 0, y, side });
    },
    text: (runs: readonly Run[], size: number, indent = 0) => {
      for (const line of flow(runs, width - indent, size, widthOf)) {
        const base = y + size * 0.95;
        for (const piece of line)
          marks.push({ kind: 'text', ...piece, x: piece.x + indent, y: base, size });
        y += size * LEADING;
      }
    },
  };
};

const layOut = (content: PageContent, size: number, width: number, widthOf: WidthOf) => {
  const page = column(width, widthOf);
  const indent = size * 1.9;
  page.text([{ text: content.name, isBold: true }], size * 1.6);
  page.text(
    content.facts.flatMap(([name, value], place) => [
      { text: `${name}:`, isBold: false },
      { text: place < content.facts.length - 1 ? `${value},` : value, isBold: true },
    ]),
    size,
  );
  let stage = '';
  for (const step of content.steps) {
    if (step.stage !== stage) {
      stage = step.stage;
      page.gap(size * 0.1);
      page.ruled(stage, size * 0.85);
      page.gap(size * 0.2);
    }
    page.box(size * 1.05);
    page.text([{ text: step.title, isBold: true }, ...withBoldMeasures(step.text)], size, indent);
    for (const caution of step.cautions)
      page.text(
        [
          { text: 'Caution:', isBold: true },
          { text: caution, isBold: false },
        ],
        size,
        indent,
      );
    page.gap(size * 0.25);
  }
  page.gap(size * 0.2);
  page.rule();
  page.gap(size * 0.3);
  page.text([{ text: content.foot, isBold: false }], size);
  return page;
};

/** Tries type sizes in quarter points, from the largest down. */
export const layOutPage = (content: PageContent, paper: PageSize, widthOf: WidthOf): PageLayout => {
  const [width, room] = [paper.width - 2 * MARGIN_PT, paper.height - 2 * MARGIN_PT];
  let size = LARGEST_TYPE;
  let page = layOut(content, size, width, widthOf);
  while (page.height() > room && size > SMALLEST_TYPE) {
    size -= 0.25;
    page = layOut(content, size, width, widthOf);
  }
  return {
    typeSize: size,
    marks: page.marks.map((mark) => ({ ...mark, x: mark.x + MARGIN_PT, y: mark.y + MARGIN_PT })),
  };
};
