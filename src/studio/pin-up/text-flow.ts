/** Breaks text into lines. All lengths are in points. */

export type WidthOf = (text: string, size: number, isBold: boolean) => number;

export interface Run {
  readonly text: string;
  readonly isBold: boolean;
}

/** Keeps its two neighbours on one line; printed as a space. */
const HARD_SPACE = '\u00a0';

/** A part of a line in one weight, at its distance from the line's left end. */
export interface Piece extends Run {
  readonly x: number;
}

interface Word extends Run {
  readonly width: number;
}

/** Breaks a word that is wider than the line. */
const broken = (run: Run, room: number, size: number, widthOf: WidthOf): Word[] => {
  const width = widthOf(run.text, size, run.isBold);
  const letters = Array.from(run.text);
  if (width <= room || letters.length < 2) return [{ ...run, width }];
  let fits = letters.length - 1;
  while (fits > 1 && widthOf(letters.slice(0, fits).join(''), size, run.isBold) > room) fits -= 1;
  const head = letters.slice(0, fits).join('');
  return [
    { text: head, isBold: run.isBold, width: widthOf(head, size, run.isBold) },
    ...broken({ ...run, text: letters.slice(fits).join('') }, room, size, widthOf),
  ];
};

/** Breaks runs at their spaces into lines no wider than `room`, with a space between runs. */
export const flow = (
  runs: readonly Run[],
  room: number,
  size: number,
  widthOf: WidthOf,
): readonly (readonly Piece[])[] => {
  const space = widthOf(' ', size, false);
  const lines: Piece[][] = [];
  let end = Infinity;
  for (const { text, isBold } of runs)
    for (const part of text.split(' ').filter((letters) => letters !== ''))
      for (const word of broken({ text: part, isBold }, room, size, widthOf)) {
        const startsLine = end + space + word.width > room;
        const x = startsLine ? 0 : end + space;
        if (startsLine) lines.push([]);
        lines.at(-1)?.push({ text: word.text.replaceAll(HARD_SPACE, ' '), isBold, x });
        end = x + word.width;
      }
  return lines;
};

const measure = /(±?\d[\d.]*(?: × \d[\d.]*)?(?: (?:mm|in|LPI|%)(?![a-z]))?[°.,:;]*)/;

/** Makes measures bold and keeps them on one line with their unit. */
export const withBoldMeasures = (text: string): readonly Run[] =>
  text.split(measure).map((part, place) => ({
    text: place % 2 === 0 ? part : part.replaceAll(' ', HARD_SPACE),
    isBold: place % 2 === 1,
  }));
