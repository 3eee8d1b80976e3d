/**
 * Corrects corners that were dragged by hand. Once the views are roughly known, the photo is compared with the
 * picture it should show, and the corners move by how far its parts lie out of place: small shifts, but large enough
 * to look like lifting near the edges.
 */
import { solve } from '../../numeric/solve.ts';
import type { Planes } from './cells.ts';

/** How far each corner must move, in places of the picture: top left, top right, bottom right, bottom left. */
export type CornerShifts = readonly (readonly [x: number, y: number])[];

const BLOCK = 24;
/** A block that seems shifted further differs for another reason. */
const MOST = 4;

/** Positions are compared in green only. */
const green = ({ channels }: Planes): Float32Array => channels[1];

/**
 * The shift of one block from its gradients (Lucas and Kanade, 1981), after evening out brightness and contrast.
 * Undefined where it has too few edges in either direction.
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
 * The corner shifts that lay the photo over the wanted picture, by least squares; the weight of each corner falls off
 * towards the others. Undefined where too few blocks can be compared.
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
  // A corner with no block near it stays in place.
  for (let i = 0; i < 4; i += 1) normal[i * 5]! += 0.01 * told;
  const [xs, ys] = [solve(normal, right[0]), solve(normal, right[1])];
  if (xs === undefined || ys === undefined) return undefined;
  return [0, 1, 2, 3].map((i) => [xs[i]!, ys[i]!] as const);
};
