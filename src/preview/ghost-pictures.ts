/**
 * The slots of the tilt proof as a trimmed print shows them: trimmed as the weave trims them, clipping
 * with it, and then seen through the leak that the trim is for.
 */
import { code8OfLinear } from '../core/colour/srgb.ts';
import type { SliceStack } from '../core/weave/band.ts';
import type { Clipped, GhostTrim } from '../core/weave/ghost.ts';
import { seenSlices, trimSlices } from '../core/weave/ghost.ts';
import type { Ribs } from '../core/weave/sheet-spec.ts';
import { fitLinear } from './fit-picture.ts';
import type { Picture, ProofScene } from './scene.ts';

/** Frames and slots of a scene whose frames are all there. */
type Shown = Pick<ProofScene, 'slots'> & { readonly frames: readonly Picture[] };

/** All at the size of the largest: a plain tone comes as one sample. */
const stackOf = ({ frames, slots }: Shown): SliceStack => {
  const columns = Math.max(...frames.map((frame) => frame.columns));
  const rows = Math.max(...frames.map((frame) => frame.rows));
  return {
    frames: frames.map((frame) => ({
      columns,
      rows,
      firstRow: 0,
      pixels: fitLinear(frame, columns, rows).light,
    })),
    slots,
  };
};

const code8 = code8OfLinear();

const picturesOf = ({ frames, slots }: SliceStack): Shown => ({
  slots,
  frames: frames.map(({ columns, rows, pixels }) => {
    const coded = new Uint8Array(columns * rows * 4).fill(255);
    for (let from = 0, to = 0; from < pixels.length; from += 3, to += 4)
      for (let c = 0; c < 3; c += 1) coded[to + c] = code8[pixels[from + c] as number] as number;
    return { columns, rows, pixels: coded };
  }),
});

let last: { readonly shown: Shown; readonly key: string; readonly seen: Shown } | undefined;

/** What did not change since the last scene is the same object again, so it is not sent anew. */
export const seenTrimmed = (shown: Shown, ribs: Ribs, trim: GhostTrim): Shown => {
  const key = JSON.stringify([trim, ribs, shown.slots]);
  const same =
    last?.key === key &&
    last.shown.frames.length === shown.frames.length &&
    last.shown.frames.every((frame, i) => frame === shown.frames[i]);
  if (last !== undefined && same) return last.seen;
  const { stack } = trimSlices(stackOf(shown), ribs, trim);
  const seen = picturesOf(seenSlices(stack, ribs, trim));
  last = { shown, key, seen };
  return seen;
};

/** A picture's every so manieth line across the ribs: for counting. */
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

/** What a trim cuts off, counted in a quarter of the lines, by different picture. */
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
