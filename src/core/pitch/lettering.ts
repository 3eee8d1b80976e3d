/**
 * Lettering for the strip: figures and capitals on a grid of 5 × 7 squares, as rectangles. Core has no
 * canvas, and squares a few dots wide print alike on every printer.
 */

/** A black rectangle in millimetres: across and along the ribs, from the strip's first corner. */
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

/** Each letter in seven rows of five, one row a word. */
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

/** Text in the letters there are: capitals without accents, a space for what cannot be drawn. */
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

/** Length of a line of text. @param squareMm side of one square of a letter. */
export const textWidthMm = (text: string, squareMm: number): number =>
  Math.max(0, text.length * ADVANCE - 1) * squareMm;

export const textHeightMm = (squareMm: number): number => ROWS * squareMm;

/**
 * A line of text, its first letter's corner at (across, along); read along `across`. Squares that lie
 * side by side in a row become one rectangle.
 * @throws RangeError for a letter that the lettering lacks; a space is one it has.
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
      throw new RangeError(`text: the strip's lettering has no "${letter}" (in "${text}")`);
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
