/**
 * The slots of the tilt proof as a print with ghost removal shows them: ghosts are removed and clipped as in the
 * weave, and the result is then seen through the leak that was removed.
 */
import { LINEAR_MAX, code8OfLinear, linearOfCode8 } from '../colour/srgb.ts';
import type { SliceStack } from '../weave/band.ts';
import type { Clipped, GhostTrim } from '../weave/ghost.ts';
import { seenSlices, trimSlices } from '../weave/ghost.ts';
import type { Ribs } from '../weave/sheet-spec.ts';
import { encoded, fitLinear } from './fit-picture.ts';
import type { Picture, ProofScene } from './scene.ts';

/** Frames and slots of a scene whose frames are all there. */
type Shown = Pick<ProofScene, 'slots'> & { readonly frames: readonly Picture[] };

const code8 = code8OfLinear();
const light8 = linearOfCode8();

/** Row-major RGB, 16 bit, linear light. */
const lightOf = (picture: Picture, columns: number, rows: number): Uint16Array => {
  if (picture.columns !== columns || picture.rows !== rows)
    return fitLinear(picture, columns, rows).light;
  const light = new Uint16Array(columns * rows * 3);
  for (let from = 0, to = 0; to < light.length; from += 4, to += 3)
    for (let c = 0; c < 3; c += 1) light[to + c] = light8[picture.pixels[from + c]!]! + 0.5;
  return light;
};

/** All pictures at the size of the largest: a plain tone is a single sample. */
const stackOf = ({ frames, slots }: Shown): SliceStack => {
  const columns = Math.max(...frames.map((frame) => frame.columns));
  const rows = Math.max(...frames.map((frame) => frame.rows));
  return {
    frames: frames.map((frame) => ({
      columns,
      rows,
      firstRow: 0,
      pixels: lightOf(frame, columns, rows),
    })),
    slots,
  };
};

const picturesOf = ({ frames, slots }: SliceStack): Shown => ({
  slots,
  frames: frames.map(({ columns, rows, pixels }) => encoded(pixels, columns, rows)),
});

/** Every n-th line of a picture across the ribs, for counting. */
const thinned = (picture: Picture, ribs: Ribs, every: number): Picture => {
  const [stepX, stepY] = ribs === 'upright' ? [1, every] : [every, 1];
  const columns = Math.ceil(picture.columns / stepX);
  const rows = Math.ceil(picture.rows / stepY);
  const pixels = new Uint8Array(columns * rows * 4);
  for (let row = 0; row < rows; row += 1)
    for (let column = 0; column < columns; column += 1) {
      const from = (row * stepY * picture.columns + column * stepX) * 4;
      pixels.set(picture.pixels.subarray(from, from + 4), (row * columns + column) * 4);
    }
  return { columns, rows, pixels };
};

const EVERY = 4;

/** What ghost removal clips in each distinct picture, counted in a quarter of the lines. */
export const clippedOf = (
  { frames, slots }: Shown,
  ribs: Ribs,
  trim: GhostTrim,
): readonly Clipped[] =>
  trimSlices(
    stackOf({ frames: frames.map((frame) => thinned(frame, ribs, EVERY)), slots }),
    ribs,
    trim,
  ).clipped;

/**
 * Without clipping, the leak gives back exactly what was removed: every picture becomes (b + (1 − b) I) / (1 + c).
 * So a table of codes replaces sums over pictures.
 */
const seenUnclipped = ({ frames, slots }: Shown, { leak, lift }: GhostTrim): Shown => {
  const table = Uint8Array.from(light8, (light) => {
    const seen = (lift * LINEAR_MAX + (1 - lift) * light) / (1 + leak);
    return code8[Math.round(seen)]!;
  });
  const seen = ({ columns, rows, pixels }: Picture): Picture => ({
    columns,
    rows,
    pixels: pixels.map((code, i) => (i % 4 === 3 ? code : table[code]!)),
  });
  return { frames: frames.map(seen), slots };
};

/** Nobody sees less than this. */
const FEW = 0.001;

const isClipped = (shown: Shown, ribs: Ribs, trim: GhostTrim): boolean => {
  if (trim.lift >= trim.leak) return false;
  const counts = clippedOf(shown, ribs, trim);
  const cut = counts.reduce((sum, { low, high }) => sum + low + high, 0);
  return cut > FEW * counts.reduce((sum, { samples }) => sum + samples, 0);
};

let last: { readonly shown: Shown; readonly key: string; readonly seen: Shown } | undefined;

/** Pictures that did not change since the last scene are the same objects, so they are not sent again. */
export const seenTrimmed = (shown: Shown, ribs: Ribs, trim: GhostTrim): Shown => {
  const key = JSON.stringify([trim, ribs, shown.slots]);
  const same =
    last?.key === key &&
    last.shown.frames.length === shown.frames.length &&
    last.shown.frames.every((frame, i) => frame === shown.frames[i]);
  if (last !== undefined && same) return last.seen;
  const seen = isClipped(shown, ribs, trim)
    ? picturesOf(seenSlices(trimSlices(stackOf(shown), ribs, trim).stack, ribs, trim))
    : seenUnclipped(shown, trim);
  last = { shown, key, seen };
  return seen;
};
