/**
 * Finds the four corner marks. In a reduced photo, what is dark against the brightest nearby forms pieces. Pieces
 * that could be an angle are tried as the four corners, by the way they point and by their size against the strip’s.
 * The best quadrilaterals are compared with the ink of the strip.
 */
import type { StripLayout } from '../strip-layout.ts';
import type { StripSpec } from '../strip.ts';
import type { StripPlane } from './camera.ts';
import { inkMatch } from './ink-match.ts';
import type { PhotoCorners, PhotoPoint, PhotoRefusal } from './photo-terms.ts';
import type { Grey, Piece } from './pieces.ts';
import { darkPieces, edgeSigmaPx } from './pieces.ts';

export type Corners =
  | { readonly ok: true; readonly corners: PhotoCorners }
  | { readonly ok: false; readonly reason: PhotoRefusal; readonly corners?: PhotoCorners };

/** Size of a mark in the layout. */
const MARK_MM = 6;
const MOST_EACH = 14;
const MOST_QUADS = 60;
/** Correlation with the strip’s ink above which it is this strip. */
const SURELY = 0.45;
/** Correlation below which there is no strip: the marks were something else. */
const A_STRIP = 0.12;
/** Wider edges, in a photo 1500 pixels long, hide marks and labels. */
const BLURRED_PX = 4;

interface Quad {
  readonly corners: readonly [PhotoPoint, PhotoPoint, PhotoPoint, PhotoPoint];
  readonly cost: number;
}

/** @param small the photo, reduced. */
export const findCorners = (
  small: Grey,
  spec: StripSpec,
  layout: StripLayout,
  plane: StripPlane,
): Corners => {
  const quads = darkPieces(small, [0.55, 0.72]).flatMap((pieces) => quadsOf(pieces, plane));
  const { best, score } = bestOf(small, quads, spec, layout, plane);
  if (score < SURELY && edgeSigmaPx(small) > BLURRED_PX) return { ok: false, reason: 'blur' };
  if (best === undefined || score < A_STRIP) return { ok: false, reason: 'no-corners' };
  const full = best.map(({ xPx, yPx }) => ({
    xPx: xPx * small.perPx,
    yPx: yPx * small.perPx,
  })) as unknown as PhotoCorners;
  return score >= SURELY
    ? { ok: true, corners: full }
    : { ok: false, reason: 'wrong-strip', corners: full };
};

/** Signs of the photo’s diagonals, clockwise from top left. */
const SIGNS = [
  [-1, -1],
  [1, -1],
  [1, 1],
  [-1, 1],
] as const;

/** How well a piece is an angle whose outer corner points along diagonal d: 0 … 1. */
const angleScore = (piece: Piece, d: number): number => {
  const { width, height, area } = piece;
  const long = Math.max(width, height);
  const short = Math.min(width, height);
  if (short < 5 || long > 2.2 * short) return 0;
  const fill = area / (width * height);
  if (fill < 0.12 || fill > 0.75) return 0;
  // The mass of an angle lies towards its corner: by a quarter of its size for a thin one.
  const [sx, sy] = SIGNS[d]!;
  const asideX = (sx * (piece.meanX - piece.left - width / 2)) / width;
  const asideY = (sy * (piece.meanY - piece.top - height / 2)) / height;
  return asideX > 0.04 && asideY > 0.04 ? Math.min(asideX, asideY) : 0;
};

const quadsOf = (pieces: readonly Piece[], plane: StripPlane): Quad[] => {
  const each = SIGNS.map((_, d) =>
    pieces
      .map((piece) => ({ piece, score: angleScore(piece, d) }))
      .filter(({ score }) => score > 0)
      .sort((a, b) => b.score * b.piece.width - a.score * a.piece.width)
      .slice(0, MOST_EACH),
  );
  const found: Quad[] = [];
  const aspect = plane.widthMm / plane.heightMm;
  for (const a of each[0]!)
    for (const b of each[1]!)
      for (const c of each[2]!)
        for (const d of each[3]!) {
          const marks = [a.piece, b.piece, c.piece, d.piece];
          const corners = marks.map((piece, i) => piece.extremes[i]!) as unknown as Quad['corners'];
          const sides = corners.map((from, i) => {
            const to = corners[(i + 1) % 4]!;
            return Math.hypot(to.xPx - from.xPx, to.yPx - from.yPx);
          });
          if (Math.min(...sides) < 40) continue;
          const wide = (sides[0]! + sides[2]!) / 2;
          const high = (sides[1]! + sides[3]!) / 2;
          const uneven =
            Math.abs(Math.log(sides[0]! / sides[2]!)) + Math.abs(Math.log(sides[1]! / sides[3]!));
          if (uneven > 0.7) continue;
          const off = Math.min(
            Math.abs(Math.log(wide / high / aspect)),
            Math.abs(Math.log((wide / high) * aspect)),
          );
          if (off > 0.7) continue;
          const perMm = Math.sqrt((wide * high) / (plane.widthMm * plane.heightMm));
          const sizes = marks.reduce(
            (sum, piece) =>
              sum + Math.abs(Math.log(Math.sqrt(piece.width * piece.height) / (MARK_MM * perMm))),
            0,
          );
          const cost = sizes + uneven + 2 * off;
          if (sizes < 2.4) found.push({ corners, cost });
        }
  return found.sort((x, y) => x.cost - y.cost).slice(0, MOST_QUADS);
};

/** The quadrilateral, in one of its four turns, that matches the ink best. */
const bestOf = (
  small: Grey,
  quads: readonly Quad[],
  spec: StripSpec,
  layout: StripLayout,
  plane: StripPlane,
) => {
  const tried = quads.flatMap(({ corners }) =>
    [0, 1, 2, 3].map((turn) => {
      const turned = [0, 1, 2, 3].map(
        (i) => corners[(i + turn) % 4]!,
      ) as unknown as Quad['corners'];
      return { turned, match: inkMatch(small, spec, layout, plane, turned, 3) };
    }),
  );
  let best: Quad['corners'] | undefined;
  let score = -Infinity;
  for (const { turned } of tried.sort((a, b) => b.match - a.match).slice(0, 8)) {
    const match = inkMatch(small, spec, layout, plane, turned);
    if (match > score) [best, score] = [turned, match];
  }
  return { best, score };
};
