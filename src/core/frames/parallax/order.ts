/** Which way the frames run, as far as the pictures show. */
import type { FrontVotes } from './front.ts';
import type { PairMotion } from './pair.ts';

export interface OrderJudgement {
  readonly runs: 'right' | 'reversed' | 'unknown';
  /** `edges`: what hides what. `ground`: only that pictures are mostly nearer at the bottom. */
  readonly by: 'edges' | 'ground' | 'nothing';
  /** Share of the witnesses that agree, 0.5 … 1. */
  readonly share: number;
  readonly witnesses: number;
}

/** Two and a half standard errors from the toss of a coin: about one chance in eighty of being wrong. */
const STANDARD_ERRORS = 2.5;
const EDGES_AT_LEAST = 12;
/** Correlation of motion with height above which it counts as a hint. */
const GROUND_AT_LEAST = 0.35;

/** Correlation of shift with the row, −1 … 1: negative when the bottom of the picture is nearer (relation 6). */
const slopeWithRow = ({ columns, rows, shift }: PairMotion): { r: number; places: number } => {
  let [n, sx, sy, sxx, syy, sxy] = [0, 0, 0, 0, 0, 0];
  for (let at = 0; at < columns * rows; at += 1) {
    const y = shift[at]!;
    if (Number.isNaN(y)) continue;
    const x = Math.floor(at / columns);
    n += 1;
    sx += x;
    sy += y;
    sxx += x * x;
    syy += y * y;
    sxy += x * y;
  }
  const spread = Math.sqrt((n * sxx - sx * sx) * (n * syy - sy * sy));
  return { r: spread > 0 ? (n * sxy - sx * sy) / spread : 0, places: n };
};

/**
 * Judges by what hides what, where enough edges agree. Otherwise takes a hint from how pictures usually are: the
 * ground lies at the bottom, nearer than what stands above it.
 */
export const judgeOrder = (votes: FrontVotes, pair: PairMotion | undefined): OrderJudgement => {
  const all = votes.right + votes.reversed;
  const lead = Math.abs(votes.right - votes.reversed);
  if (all >= EDGES_AT_LEAST && lead >= STANDARD_ERRORS * Math.sqrt(all))
    return {
      runs: votes.right > votes.reversed ? 'right' : 'reversed',
      by: 'edges',
      share: Math.max(votes.right, votes.reversed) / all,
      witnesses: all,
    };
  const ground = pair === undefined ? { r: 0, places: 0 } : slopeWithRow(pair);
  if (ground.places >= 100 && Math.abs(ground.r) >= GROUND_AT_LEAST)
    return {
      runs: ground.r < 0 ? 'right' : 'reversed',
      by: 'ground',
      share: (1 + Math.abs(ground.r)) / 2,
      witnesses: ground.places,
    };
  return { runs: 'unknown', by: 'nothing', share: 0.5, witnesses: all };
};
