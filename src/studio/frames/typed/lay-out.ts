/**
 * Letters on a canvas: how large it must be, where each line stands, and the drawing itself. The canvas shapes scripts
 * and sets them in their own direction.
 */
import type { Typed } from '../../../job/schema/typed.ts';

export type Pen = CanvasRenderingContext2D | OffscreenCanvasRenderingContext2D;

export interface Letters extends Pick<
  Typed,
  'text' | 'weight' | 'capMm' | 'colour' | 'outlineMm' | 'outlineColour' | 'align'
> {
  /** As a style sheet names it. */
  readonly family: string;
  /** Height of a capital, ems. */
  readonly capEm: number;
}

interface Line {
  readonly text: string;
  readonly direction: 'ltr' | 'rtl';
  /** Of its anchor, by `align`, pixels. */
  readonly x: number;
  /** Of its baseline. */
  readonly y: number;
}

export interface Layout {
  readonly pxPerMm: number;
  /** The middle of the letters, from the first line's capitals to the last one's baseline, is the middle of this. */
  readonly width: number;
  readonly height: number;
  readonly font: string;
  readonly lines: readonly Line[];
}

/** From one baseline to the next, in ems: common practice. */
const LINE = 1.2;
/** Room for what the edges of letters are smoothed by, pixels. */
const EDGE = 2;

const fontOf = ({ weight, family }: Pick<Letters, 'weight' | 'family'>, px: number) =>
  `${weight} ${px}px ${family}`;

/** Scripts from right to left: Unicode Standard Annex 9, types R and AL. */
const rightToLeft =
  /[\p{Script=Hebrew}\p{Script=Arabic}\p{Script=Syriac}\p{Script=Thaana}\p{Script=Nko}\p{Script=Adlam}\p{Script=Samaritan}\p{Script=Mandaic}]/u;

/** By its first letter of any script (UAX 9, rules P2 and P3). */
export const directionOf = (text: string): 'ltr' | 'rtl' => {
  const first = /\p{L}/u.exec(text)?.[0];
  return first !== undefined && rightToLeft.test(first) ? 'rtl' : 'ltr';
};

const setUp = (pen: Pen, font: string): void => {
  pen.font = font;
  pen.textAlign = 'left';
  pen.textBaseline = 'alphabetic';
  // Letters keep their shape: none is fitted to the grid of pixels.
  if ('textRendering' in pen) pen.textRendering = 'geometricPrecision';
};

const MEASURED_PX = 500;
export const MEASURED_ROOM = 800;

/**
 * Height of a capital in ems, from the stem of an H as it is drawn: what `measureText` tells is rounded.
 * @param pen of an empty canvas, `MEASURED_ROOM` pixels wide and high
 */
export const measureCap = (pen: Pen, typeface: Pick<Letters, 'weight' | 'family'>): number => {
  setUp(pen, fontOf(typeface, MEASURED_PX));
  pen.direction = 'ltr';
  const margin = (MEASURED_ROOM - MEASURED_PX) / 2;
  pen.fillStyle = '#000000';
  pen.fillText('H', margin, MEASURED_ROOM - margin);
  const { data } = pen.getImageData(0, 0, MEASURED_ROOM, MEASURED_ROOM);
  const heights = new Float64Array(MEASURED_ROOM);
  for (let at = 3, pixel = 0; at < data.length; at += 4, pixel += 1) {
    const column = pixel % MEASURED_ROOM;
    heights[column] = (heights[column] ?? 0) + (data[at] ?? 0) / 255;
  }
  const tallest = Math.max(...heights) / MEASURED_PX;
  // A browser that guards against being recognised hands out noise.
  const isDrawn = heights[0] === 0 && tallest > 0.2;
  return isDrawn ? tallest : pen.measureText('H').actualBoundingBoxAscent / MEASURED_PX;
};

interface Ink {
  readonly text: string;
  readonly direction: 'ltr' | 'rtl';
  readonly width: number;
  /** Past its width, to the side where that is more. */
  readonly beside: number;
  readonly above: number;
  readonly below: number;
}

const inkOf = (pen: Pen, text: string): Ink => {
  const direction = directionOf(text);
  pen.direction = direction;
  const ink = pen.measureText(text);
  return {
    text,
    direction,
    width: ink.width,
    beside: Math.max(0, ink.actualBoundingBoxLeft, ink.actualBoundingBoxRight - ink.width),
    above: ink.actualBoundingBoxAscent,
    below: ink.actualBoundingBoxDescent,
  };
};

const sides = { left: 0, middle: 0.5, right: 1 } as const;

const layOut = (pen: Pen, letters: Letters, pxPerMm: number): Layout => {
  const capPx = letters.capMm * pxPerMm;
  const em = capPx / letters.capEm;
  const font = fontOf(letters, em);
  setUp(pen, font);
  const inks = letters.text.split('\n').map((text) => inkOf(pen, text));
  const lineStep = Math.round(LINE * em);
  const last = (inks.length - 1) * lineStep;
  const most = (of: (ink: Ink, at: number) => number) => Math.max(0, ...inks.map(of));
  const room = letters.outlineMm * pxPerMm + EDGE;
  const width = most((ink) => ink.width);
  const padX = Math.ceil(most(({ beside }) => beside) + room);
  const over = most(({ above }, at) => above - capPx - at * lineStep);
  const under = most(({ below }, at) => below - (last - at * lineStep));
  const padY = Math.max(over, under) + room;
  // Baselines lie between pixels, where a canvas draws them however it rounds.
  const baseline = Math.ceil(padY + capPx);
  const whole = Math.ceil(width) + 2 * padX;
  const x = (whole - width) / 2 + sides[letters.align] * width;
  return {
    pxPerMm,
    width: whole,
    height: Math.round(2 * baseline - capPx + last),
    font,
    lines: inks.map(({ text, direction }, at) => ({
      text,
      direction,
      x,
      y: baseline + at * lineStep,
    })),
  };
};

/** As `layOut`, with fewer pixels where there would be more than `mostPx`, or one side longer than `mostSide`. */
export const layOutWithin = (
  pen: Pen,
  letters: Letters,
  pxPerMm: number,
  { mostPx, mostSide }: { readonly mostPx: number; readonly mostSide: number },
): Layout => {
  const full = layOut(pen, letters, pxPerMm);
  const { width, height } = full;
  const factor = Math.min(
    1,
    Math.sqrt(mostPx / (width * height)),
    mostSide / Math.max(width, height),
  );
  return factor === 1 ? full : layOut(pen, letters, pxPerMm * factor * 0.98);
};

/** The outline lies under the letters: half of its stroke is seen, all of it outside them. */
export const drawLetters = (pen: Pen, letters: Letters, layout: Layout): void => {
  setUp(pen, layout.font);
  pen.textAlign = letters.align === 'middle' ? 'center' : letters.align;
  pen.lineJoin = 'round';
  pen.lineWidth = 2 * letters.outlineMm * layout.pxPerMm;
  pen.strokeStyle = letters.outlineColour;
  pen.fillStyle = letters.colour;
  const each = (draw: (line: Line) => void) => {
    for (const line of layout.lines) {
      pen.direction = line.direction;
      draw(line);
    }
  };
  if (letters.outlineMm > 0) each(({ text, x, y }) => pen.strokeText(text, x, y));
  each(({ text, x, y }) => pen.fillText(text, x, y));
};
