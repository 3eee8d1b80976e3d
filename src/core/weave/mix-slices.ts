/**
 * Pictures made from others: a slot that shows two frames at once, or a plain tone. Made from the rows of one band at
 * a time, so that no mixed frame is held whole; in linear light.
 */
import { LINEAR_MAX } from '../colour/srgb.ts';
import type { FrameSlice, SliceStack } from './band.ts';

/** Sum of frames, each times its share, and a constant light. Shares and light / 65535 sum to 1. */
export interface PictureMix {
  readonly parts: readonly { readonly frame: number; readonly share: number }[];
  /** Linear light, 0 … 65535. */
  readonly light: number;
  /** Left out: nothing on top. */
  readonly over?: Overlay;
}

/**
 * A picture with transparency on top of the rest: the same picture prepared on white and on black. The difference of
 * the two is the share of the ground in each sample, so on any light X the result is black + X × (white − black).
 */
export interface Overlay {
  readonly onWhite: number;
  readonly onBlack: number;
  /** Lenticules that it slides to the right. Upright ribs only; 0 for lying ones. */
  readonly shift: number;
}

/**
 * Lays an overlay over a picture of RGB samples, in place. It is interpolated linearly between samples, and its edge
 * samples are repeated beyond its edges.
 */
export const layOver = (
  out: Uint16Array,
  columns: number,
  { onWhite, onBlack, shift }: Record<'onWhite' | 'onBlack', Uint16Array> & { shift: number },
) => {
  const last = columns - 1;
  for (let column = 0; column < columns; column += 1) {
    const at = Math.min(last, Math.max(0, column - shift));
    const left = Math.min(Math.floor(at), Math.max(0, last - 1));
    const share = at - left;
    const next = left < last ? 3 : 0;
    for (let row = 0; row * columns * 3 < out.length; row += 1)
      for (let c = 0; c < 3; c += 1) {
        const from = (row * columns + left) * 3 + c;
        const to = (row * columns + column) * 3 + c;
        const [w, b] = [onWhite[from]!, onBlack[from]!];
        const white = w + (onWhite[from + next]! - w) * share;
        const black = b + (onBlack[from + next]! - b) * share;
        const through = Math.max(0, white - black) / LINEAR_MAX;
        out[to] = Math.min(LINEAR_MAX, black + out[to]! * through + 0.5);
      }
  }
};

/** out[i] = light + Σ share × part[i], rounded. At most two parts. */
const sumInto = (
  out: Uint16Array,
  parts: readonly { readonly pixels: Uint16Array; readonly share: number }[],
  light: number,
) => {
  const [first, second] = parts;
  if (first === undefined) {
    out.fill(Math.round(light));
    return;
  }
  const [a, b] = [first.pixels, (second ?? first).pixels];
  const [shareA, shareB] = [first.share, second?.share ?? 0];
  for (let i = 0; i < out.length; i += 1)
    out[i] = Math.min(LINEAR_MAX, a[i]! * shareA + b[i]! * shareB + light + 0.5);
};

/**
 * The slices that the slots show, with the mixes made. `slots` numbers the frames, then the mixes; frames used only
 * in a mix are left out of the result.
 * @throws RangeError that names `frames`, `slots` or `mixes`.
 */
export const mixSlices = (
  frames: readonly FrameSlice[],
  mixes: readonly PictureMix[],
  slots: readonly number[],
): SliceStack => {
  if (mixes.length === 0) return { frames, slots };
  const [shape] = frames;
  if (shape === undefined) throw new RangeError('frames: expected at least one, received none');
  const sliceOf = (index: number): FrameSlice => {
    const frame = frames[index];
    if (frame !== undefined) return frame;
    const mix = mixes[index - frames.length];
    if (mix === undefined || mix.parts.length > 2)
      throw new RangeError(
        `slots: expected a frame or a mix of at most two, received number ${index}`,
      );
    const pixels = new Uint16Array(shape.pixels.length);
    const parts = mix.parts.map(({ frame: part, share }) => {
      const slice = frames[part];
      if (slice === undefined)
        throw new RangeError(`mixes: expected a frame, received number ${part}`);
      return { pixels: slice.pixels, share };
    });
    sumInto(pixels, parts, mix.light);
    if (mix.over !== undefined) {
      const { onWhite, onBlack, shift } = mix.over;
      const [white, black] = [frames[onWhite]?.pixels, frames[onBlack]?.pixels];
      if (white === undefined || black === undefined)
        throw new RangeError(
          `mixes: expected two title frames, received numbers ${onWhite} and ${onBlack}`,
        );
      layOver(pixels, shape.columns, { onWhite: white, onBlack: black, shift });
    }
    return { ...shape, pixels };
  };
  const shown = [...new Set(slots)];
  return { frames: shown.map(sliceOf), slots: slots.map((slot) => shown.indexOf(slot)) };
};
