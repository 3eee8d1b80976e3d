/**
 * Corners are dragged by hand. Once it is known roughly which view shows where, the photo can be laid
 * over what it should look like, and the corners settled by how far its parts lie beside it: a few parts
 * of a per cent, but enough to look like lifting near the edges.
 */
import { solve } from '../../numeric/solve.ts';
import type { Planes } from './cells.ts';

/** How far each corner must go, in places of the picture: top left, top right, bottom right, bottom left. */
export type CornerShifts = readonly (readonly [x: number, y: number])[];

const BLOCK = 24;
/** Shifts beyond this are not believed of a block: the picture differs there for another reason. */
const MOST = 4;

/** Green alone tells where things lie. */
const green = ({ channels }: Planes): Float32Array => channels[1];

/**
 * The shift of one block by its gradients (Lucas and Kanade, 1981), brightness and contrast evened out
 * first. Undefined where there are too few edges of either direction.
 */
const blockShift = (
  photo: Float32Array,
  wanted: Float32Array,
  width: number,
  left: number,
  top: number,
): readonly [x: number, y: number, weight: number] | undefined => {
  let [p1, w1, pp, ww, pw] = [0, 0, 0, 0, 0];
  const each = (visit: (at: number) => void) => {
    for (let y = top; y < top + BLOCK; y += 1)
      for (let x = left; x < left + BLOCK; x += 1) visit(y * width + x);
  };
  each((at) => {
    const [p, w] = [photo[at]!, wanted[at]!];
    p1 += p;
    w1 += w;
    pp += p * p;
    ww += w * w;
    pw += p * w;
  });
  const count = BLOCK * BLOCK;
  const [vp, vw, both] = [pp - (p1 * p1) / count, ww - (w1 * w1) / count, pw - (p1 * w1) / count];
  const like = both / Math.sqrt(Math.max(1e-12, vp * vw));
  if (!(like > 0.5)) return undefined;
  const gain = Math.sqrt(vp / vw);
  let [xx, xy, yy, xd, yd] = [0, 0, 0, 0, 0];
  each((at) => {
    const gx = (wanted[at + 1]! - wanted[at - 1]!) / 2;
    const gy = (wanted[at + width]! - wanted[at - width]!) / 2;
    const off = (photo[at]! - p1 / count) / gain - (wanted[at]! - w1 / count);
    xx += gx * gx;
    xy += gx * gy;
    yy += gy * gy;
    xd += gx * off;
    yd += gy * off;
  });
  const under = xx * yy - xy * xy;
  if (!(under > 0.05 * xx * yy) || !(xx > 0.02 && yy > 0.02)) return undefined;
  // The photo shows at x what is wanted at x − shift.
  const [sx, sy] = [-(yy * xd - xy * yd) / under, -(xx * yd - xy * xd) / under];
  return Math.hypot(sx, sy) > MOST ? undefined : [sx, sy, like * like];
};

/**
 * Corner shifts that lay the photo over the picture wanted: least squares, each corner's share of a place
 * falling off to the others. Undefined where too little of the picture tells.
 */
export const cornerShifts = (photo: Planes, wanted: Planes): CornerShifts | undefined => {
  const { width, height } = photo;
  const [seen, drawn] = [green(photo), green(wanted)];
  const normal = new Float64Array(16);
  const right = [new Float64Array(4), new Float64Array(4)] as const;
  let told = 0;
  for (let top = 1; top + BLOCK < height; top += BLOCK / 2)
    for (let left = 1; left + BLOCK < width; left += BLOCK / 2) {
      const shift = blockShift(seen, drawn, width, left, top);
      if (shift === undefined) continue;
      told += 1;
      const [x, y] = [(left + BLOCK / 2) / width, (top + BLOCK / 2) / height];
      const shares = [(1 - x) * (1 - y), x * (1 - y), x * y, (1 - x) * y];
      shares.forEach((one, i) => {
        shares.forEach((two, k) => (normal[i * 4 + k]! += shift[2] * one * two));
        right[0][i]! += shift[2] * one * shift[0];
        right[1][i]! += shift[2] * one * shift[1];
      });
    }
  if (told < 12) return undefined;
  // A corner that nothing near tells of stays.
  for (let i = 0; i < 4; i += 1) normal[i * 5]! += 0.01 * told;
  const [xs, ys] = [solve(normal, right[0]), solve(normal, right[1])];
  if (xs === undefined || ys === undefined) return undefined;
  return [0, 1, 2, 3].map((i) => [xs[i]!, ys[i]!] as const);
};
