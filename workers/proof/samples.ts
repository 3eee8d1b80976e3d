/** Which samples of the pictures make each pixel across the ribs, when there is no shader to find them. */
import { forEachShare } from '../../src/core/lens/mix.ts';
import type { ProofScene, ProofView } from '../../src/core/proof/scene.ts';

/** How the pictures of a scene lie in memory: a line across the ribs of each, one after the other. */
export interface Grid {
  readonly scene: ProofScene;
  readonly acrossPx: number;
  /** Samples in a line of one picture. */
  readonly columns: number;
  readonly sampleBytes: number;
  /** For each view slot, where the line of its picture begins, bytes. */
  readonly placeOf: readonly number[];
}

/** Pixel i is the sum of its samples, start[i] up to start[i + 1], each times its share. */
export interface Samples {
  /** Length pixels + 1. */
  readonly start: Uint32Array;
  /** Bytes from where the lines begin. */
  readonly at: Uint32Array;
  /** Of 65,536; those of a pixel sum to it. */
  readonly share: Uint32Array;
}

const WHOLE = 65536;

/** Most samples of a pixel: of three ribs, two where it is interpolated, of a blur over two pitches. */
const mostSamples = (viewSlots: number): number => 6 * (2 * viewSlots + 2);

/** Room for the samples of any view. */
export const roomForSamples = ({ slots }: ProofScene, acrossPx: number): Samples => {
  const most = mostSamples(slots.length) * acrossPx;
  return {
    start: new Uint32Array(acrossPx + 1),
    at: new Uint32Array(most),
    share: new Uint32Array(most),
  };
};

/** Takes the samples of one pixel after the other; they must fit `into`. */
const taker = ({ scene, columns, sampleBytes, placeOf }: Grid, into: Samples) => {
  const most = mostSamples(scene.slots.length);
  let count = 0;
  let first = 0;
  let left = WHOLE;
  let largest = 0;
  const push = (place: number, share: number) => {
    const whole = Math.round(share * WHOLE);
    if (whole === 0 || count - first === most) return;
    into.at[count] = place;
    into.share[count] = whole;
    if (whole > into.share[largest]!) largest = count;
    left -= whole;
    count += 1;
  };
  return {
    /** The view in a slot, at a place across the ribs in lenticules, interpolated between samples. */
    take(slot: number, at: number, share: number) {
      const x = (at / scene.lenticules) * columns - 0.5;
      const inside = Math.min(columns - 1, Math.max(0, x));
      const low = Math.floor(inside);
      const near = inside - low;
      const place = placeOf[slot]! + low * sampleBytes;
      push(place, share * (1 - near));
      if (near > 0) push(place + sampleBytes, share * near);
    },
    /** What rounding has left over goes to the largest. */
    endPixel(pixel: number) {
      into.share[largest]! += left;
      into.start[pixel + 1] = count;
      first = count;
      largest = count;
      left = WHOLE;
    },
  };
};

/** @param placeAt u at a place across the ribs, in lenticules */
export const findSamples = (
  grid: Grid,
  { blur }: ProofView,
  placeAt: (at: number) => number,
  into: Samples,
): void => {
  const { scene, acrossPx } = grid;
  const perPixel = scene.acrossSpan / acrossPx;
  const viewSlots = scene.slots.length;
  const { take, endPixel } = taker(grid, into);
  const seenThrough = (at: number, part: number) =>
    forEachShare(placeAt(at), viewSlots, blur, (slot, rib, share) =>
      take(slot, at + rib, share * part),
    );
  for (let pixel = 0; pixel < acrossPx; pixel += 1) {
    const position = scene.acrossStart + perPixel * (pixel + 0.5);
    if (perPixel >= 1) seenThrough(position, 1);
    else {
      const rib = Math.floor(position);
      const inside = position - rib;
      // Shares of this pixel that lie over the rib on its left, and on its right.
      const left = Math.max(0, 0.5 - inside / perPixel);
      const right = Math.max(0, 0.5 - (1 - inside) / perPixel);
      seenThrough(rib + 0.5, 1 - left - right);
      if (left > 0) seenThrough(rib - 0.5, left);
      if (right > 0) seenThrough(rib + 1.5, right);
    }
    endPixel(pixel);
  }
};
