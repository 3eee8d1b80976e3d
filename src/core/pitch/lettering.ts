/**
 * Lettering for the strip: figures and capitals on a grid of 5 × 7 squares, as rectangles. Core has no canvas, and
 * squares of a few dots print alike on every printer.
 */
import { trimmed } from '../units/format.ts';
import { MM_PER_INCH } from '../units/units.ts';

/** A black rectangle, millimetres across and along the ribs from the strip’s first corner. */
export interface InkMm {
  readonly across: number;
  readonly along: number;
  readonly width: number;
  readonly height: number;
}

const COLUMNS = 5;
const ROWS = 7;
/** From one letter to the next, in squares. */
const ADVANCE = COLUMNS + 1;

/** Each letter in seven rows of five squares. */
const letters: Readonly<Record<string, string>> = {
  '0': '.###. #...# #...# #...# #...# #...# .###.',
  '1': '..#.. .##.. ..#.. ..#.. ..#.. ..#.. .###.',
  '2': '.###. #...# ....# ..##. .#... #.... #####',
  '3': '.###. #...# ....# ..##. ....# #...# .###.',
  '4': '...#. ..##. .#.#. #..#. ##### ...#. ...#.',
  '5': '##### #.... ####. ....# ....# #...# .###.',
  '6': '..##. .#... #.... ####. #...# #...# .###.',
  '7': '##### ....# ...#. ..#.. ..#.. .#... .#...',
  '8': '.###. #...# #...# .###. #...# #...# .###.',
  '9': '.###. #...# #...# .#### ....# ...#. .##..',
  '.': '..... ..... ..... ..... ..... .##.. .##..',
  A: '.###. #...# #...# ##### #...# #...# #...#',
  B: '####. #...# #...# ####. #...# #...# ####.',
  C: '.###. #...# #.... #.... #.... #...# .###.',
  D: '####. #...# #...# #...# #...# #...# ####.',
  E: '##### #.... #.... ####. #.... #.... #####',
  F: '##### #.... #.... ####. #.... #.... #....',
  G: '.###. #...# #.... #.### #...# #...# .###.',
  H: '#...# #...# #...# ##### #...# #...# #...#',
  I: '.###. ..#.. ..#.. ..#.. ..#.. ..#.. .###.',
  L: '#.... #.... #.... #.... #.... #.... #####',
  J: '....# ....# ....# ....# #...# #...# .###.',
  K: '#...# #..#. #.#.. ##... #.#.. #..#. #...#',
  M: '#...# ##.## #.#.# #.#.# #...# #...# #...#',
  N: '#...# ##..# #.#.# #..## #...# #...# #...#',
  O: '.###. #...# #...# #...# #...# #...# .###.',
  P: '####. #...# #...# ####. #.... #.... #....',
  Q: '.###. #...# #...# #...# #.#.# #..#. .##.#',
  R: '####. #...# #...# ####. #.#.. #..#. #...#',
  S: '.#### #.... #.... .###. ....# ....# ####.',
  T: '##### ..#.. ..#.. ..#.. ..#.. ..#.. ..#..',
  U: '#...# #...# #...# #...# #...# #...# .###.',
  V: '#...# #...# #...# #...# #...# .#.#. ..#..',
  W: '#...# #...# #...# #.#.# #.#.# ##.## #...#',
  X: '#...# #...# .#.#. ..#.. .#.#. #...# #...#',
  Y: '#...# #...# .#.#. ..#.. ..#.. ..#.. ..#..',
  Z: '##### ....# ...#. ..#.. .#... #.... #####',
  '%': '##..# ##..# ...#. ..#.. .#... #..## #..##',
  '-': '..... ..... ..... ##### ..... ..... .....',
  ',': '..... ..... ..... ..... .##.. ..#.. .#...',
};

/** Text that can be drawn: capitals without accents, a space for each other character. */
export const drawableText = (text: string): string =>
  text
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toUpperCase()
    .split('')
    .map((letter) => (letter in letters ? letter : ' '))
    .join('')
    .replace(/ +/g, ' ')
    .trim();

/** Length of a line of text. @param squareMm side of one square of the grid. */
export const textWidthMm = (text: string, squareMm: number): number =>
  Math.max(0, text.length * ADVANCE - 1) * squareMm;

export const textHeightMm = (squareMm: number): number => ROWS * squareMm;

/** The words of a line that are `roomMm` long at most. */
export const wholeWords = (line: string, roomMm: number, squareMm: number): string => {
  let kept = line;
  while (textWidthMm(kept, squareMm) > roomMm && kept !== '')
    kept = kept.slice(0, Math.max(0, kept.lastIndexOf(' ')));
  return kept;
};

/** Lines of text above a target, each `roomMm` long at most: a longer one ends at its last whole word. */
export const headLines = (
  lines: readonly string[],
  across: number,
  roomMm: number,
  squareMm: number,
): InkMm[] =>
  lines.flatMap((line, number) =>
    lettering(wholeWords(line, roomMm, squareMm), across, 1.8 + number * 3.8, squareMm),
  );

/** The length of a measuring bar, as lettered beside it. */
export const barName = (lengthMm: number, unit: 'mm' | 'in'): string =>
  unit === 'mm' ? `${trimmed(lengthMm, 1)} MM` : `${trimmed(lengthMm / MM_PER_INCH, 2)} IN`;

/**
 * A line of text that runs along `across`. Squares side by side in a row become one rectangle.
 * @param across, along corner of the first letter, mm.
 * @throws RangeError for a letter that the lettering does not have; it has the space.
 */
export const lettering = (
  text: string,
  across: number,
  along: number,
  squareMm: number,
): InkMm[] => {
  const ink: InkMm[] = [];
  text.split('').forEach((letter, place) => {
    if (letter === ' ') return;
    const drawn = letters[letter];
    if (drawn === undefined)
      throw new RangeError(`text: the lettering has no "${letter}" (in "${text}")`);
    drawn.split(' ').forEach((row, down) => {
      for (const { index, 0: run } of row.matchAll(/#+/g))
        ink.push({
          across: across + (place * ADVANCE + index) * squareMm,
          along: along + down * squareMm,
          width: run.length * squareMm,
          height: squareMm,
        });
    });
  });
  return ink;
};
