/** Where a made frame was filled, at a size small enough to keep with the frame. */
import { axisMap, evenEdges } from '../../weave/resample.ts';

export interface FilledPlaces {
  readonly columns: number;
  readonly rows: number;
  /** Row-major: share of each place that was filled, 0 … 255. */
  readonly holes: Uint8Array<ArrayBuffer>;
}

/** Longest side that is kept, in places. */
const KEPT_AT_MOST = 640;

/** Columns and rows to keep for a frame: same shape, never more than the frame has. */
export const keptSize = (
  widthPx: number,
  heightPx: number,
): { readonly columns: number; readonly rows: number } => {
  const scale = Math.min(1, KEPT_AT_MOST / Math.max(widthPx, heightPx));
  const kept = (side: number) => Math.max(1, Math.round(side * scale));
  return { columns: kept(widthPx), rows: kept(heightPx) };
};

/**
 * Reduces holes to the kept size by area means. A place with any filled pixel is at least 1, so that none is lost.
 */
export const keptPlaces = ({ columns, rows, holes }: FilledPlaces): FilledPlaces => {
  const kept = keptSize(columns, rows);
  if (kept.columns === columns && kept.rows === rows)
    return { columns, rows, holes: holes.slice() };
  const across = axisMap(evenEdges(kept.columns, columns), columns);
  const down = axisMap(evenEdges(kept.rows, rows), rows);
  const out = new Uint8Array(kept.columns * kept.rows);
  const line = new Float64Array(columns);
  for (let y = 0; y < kept.rows; y += 1) {
    line.fill(0);
    for (let j = down.start[y]!; j < down.start[y + 1]!; j += 1) {
      const base = down.source[j]! * columns;
      const weight = down.weight[j]!;
      for (let x = 0; x < columns; x += 1) line[x] = line[x]! + weight * holes[base + x]!;
    }
    for (let x = 0; x < kept.columns; x += 1) {
      let sum = 0;
      for (let i = across.start[x]!; i < across.start[x + 1]!; i += 1)
        sum += across.weight[i]! * line[across.source[i]!]!;
      out[y * kept.columns + x] = sum > 0 ? Math.max(1, Math.round(sum)) : 0;
    }
  }
  return { ...kept, holes: out };
};

type Thirds = readonly [number, number, number];

/** Shares of all filled pixels, 0 … 1: by thirds from left to right, and from top to bottom. */
export interface FilledThirds {
  readonly across: Thirds;
  readonly down: Thirds;
}

/** @returns undefined where nothing was filled. */
export const thirdsOf = ({ columns, rows, holes }: FilledPlaces): FilledThirds | undefined => {
  const across: [number, number, number] = [0, 0, 0];
  const down: [number, number, number] = [0, 0, 0];
  let all = 0;
  const third = (at: number, of: number) => Math.floor((3 * (at + 0.5)) / of) as 0 | 1 | 2;
  for (let i = 0; i < holes.length; i += 1) {
    const share = holes[i]!;
    if (share === 0) continue;
    all += share;
    across[third(i % columns, columns)] += share;
    down[third(Math.floor(i / columns), rows)] += share;
  }
  const shares = (sums: Thirds): Thirds => [sums[0] / all, sums[1] / all, sums[2] / all];
  return all === 0 ? undefined : { across: shares(across), down: shares(down) };
};
