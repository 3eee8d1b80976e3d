/**
 * Tells from the picture which of two depths is in front. At an edge between them a strip of the farther one is
 * hidden in the next frame or in the one before, and the strip lies on the farther one’s side (half-occlusion, known
 * from stereo vision). That shows whether the order of the frames agrees with the sign of the parallax: by relation
 * 6, what is farther moves further with the camera.
 */
import type { MatchField } from './match.ts';
import { placeAt } from './match.ts';
import type { Plane } from './plane.ts';

export interface FrontVotes {
  /** Edges where what moves further with the camera is behind, as it should be. */
  readonly right: number;
  /** Edges where it is in front: the frames run the wrong way. */
  readonly reversed: number;
}

/** An edge counts when its two sides move apart by at least this much. */
const LEAST_STRIP_PX = 1.2;
/** The hidden side must fit worse than the other by this factor. */
const CLEARLY = 1.3;
/** A misfit below this is noise; white is 1. */
const NOISE = 0.01;

const sample = ({ width, height, data }: Plane, x: number, y: number): number => {
  const left = Math.min(width - 2, Math.max(0, Math.floor(x)));
  const row = Math.min(height - 1, Math.max(0, y)) * width;
  const part = Math.min(1, Math.max(0, x - left));
  return (1 - part) * data[row + left]! + part * data[row + left + 1]!;
};

/** How badly pixel (x, y) of `from` fits `to` when moved by dx: mean difference over 3 × 5 pixels. */
const misfit = (from: Plane, to: Plane, x: number, y: number, dx: number): number => {
  let sum = 0;
  for (let v = -2; v <= 2; v += 1)
    for (let u = -1; u <= 1; u += 1)
      sum += Math.abs(sample(from, x + u, y + v) - sample(to, x + u + dx, y + v));
  return sum / 15;
};

interface Edge {
  readonly y: number;
  readonly fromX: number;
  readonly toX: number;
  /** Displacement of each side from the middle frame to the next, pixels. */
  readonly left: number;
  readonly right: number;
}

/** Where the left side ends, judged by the frame in which both sides are fully visible. */
const boundary = (mid: Plane, whole: Plane, edge: Edge, sign: 1 | -1): number => {
  const length = edge.toX - edge.fromX + 1;
  const gains = Array.from({ length }, (_, i) => {
    const x = edge.fromX + i;
    return (
      misfit(mid, whole, x, edge.y, sign * edge.left) -
      misfit(mid, whole, x, edge.y, sign * edge.right)
    );
  });
  let [best, least, sum] = [0, 0, 0];
  gains.forEach((gain, i) => {
    sum += gain;
    if (sum < least) [least, best] = [sum, i + 1];
  });
  return edge.fromX + best;
};

/** 1: the side that moves further is behind; −1: it is in front; 0: not clear. */
const judge = (before: Plane, mid: Plane, next: Plane, edge: Edge): -1 | 0 | 1 => {
  // Sides that close in hide something in the next frame; sides that part, in the frame before.
  const closing = edge.left > edge.right;
  const [whole, wholeSign, covering, coverSign] = closing
    ? ([before, -1, next, 1] as const)
    : ([next, 1, before, -1] as const);
  const at = boundary(mid, whole, edge, wholeSign);
  const strip = Math.max(1, Math.floor(Math.abs(edge.left - edge.right)));
  let [leftMisfit, rightMisfit] = [0, 0];
  for (let i = 0; i < strip; i += 1) {
    leftMisfit += misfit(mid, covering, at - 1 - i, edge.y, coverSign * edge.left);
    rightMisfit += misfit(mid, covering, at + i, edge.y, coverSign * edge.right);
  }
  if (Math.max(leftMisfit, rightMisfit) < strip * NOISE) return 0;
  if (leftMisfit > CLEARLY * rightMisfit) return closing ? 1 : -1;
  if (rightMisfit > CLEARLY * leftMisfit) return closing ? -1 : 1;
  return 0;
};

/** Matches near an edge are rarely as sure as elsewhere; here they only need to exist. */
const clear = (field: MatchField, at: number): boolean =>
  field.likeness[at]! > 0.75 && field.unsure[at]! < 0.1;

/**
 * Judges every edge between clear places of a middle frame. All planes have one size.
 * @param before as far from `mid` as `next` is, on the other side.
 * @param field the match of `mid` with `next`.
 */
export const votesOnFront = (
  before: Plane,
  mid: Plane,
  next: Plane,
  field: MatchField,
): FrontVotes => {
  let [right, reversed] = [0, 0];
  for (let row = 0; row < field.rows; row += 1)
    for (let column = 0; column + 1 < field.columns; column += 1) {
      const at = row * field.columns + column;
      // The place between two depths is rarely sure, so look past it.
      for (const reach of [1, 2, 3, 4]) {
        if (column + reach >= field.columns || !clear(field, at)) break;
        if (!clear(field, at + reach)) continue;
        const edge: Edge = {
          y: placeAt(row),
          fromX: placeAt(column),
          toX: placeAt(column + reach),
          left: field.dx[at]!,
          right: field.dx[at + reach]!,
        };
        if (Math.abs(edge.left - edge.right) >= LEAST_STRIP_PX) {
          const vote = judge(before, mid, next, edge);
          if (vote === 1) right += 1;
          else if (vote === -1) reversed += 1;
        }
        break;
      }
    }
  return { right, reversed };
};
