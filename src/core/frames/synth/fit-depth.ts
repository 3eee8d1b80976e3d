/**
 * Brings a depth map to the size of its picture. At an edge there is no depth between the two sides, so no mean is
 * taken: each pixel takes the depth of the neighbour whose colour is most like its own (the idea of joint bilateral
 * upsampling, Kopf et al., ACM TOG 26(3), 2007, with a single winner).
 */
import type { ReducedFrame } from '../../weave/reduce.ts';

interface Grid {
  readonly widthPx: number;
  readonly heightPx: number;
  /** Row-major, length widthPx × heightPx. */
  readonly parts: Float32Array;
}

/** Shapes may differ by the rounding of a half-size map, but not by a crop. */
const SHAPE_SLACK = 0.01;

export const sameShape = (
  a: { readonly widthPx: number; readonly heightPx: number },
  b: { readonly widthPx: number; readonly heightPx: number },
): boolean =>
  Math.abs((a.widthPx * b.heightPx) / (a.heightPx * b.widthPx) - 1) <=
  Math.max(SHAPE_SLACK, 1 / Math.min(a.widthPx, a.heightPx, b.widthPx, b.heightPx));

/** Squared difference of two colours’ square roots, which give shadows their weight. */
const unlike = (a: Uint16Array, at: number, b: Uint16Array, to: number): number => {
  let sum = 0;
  for (let c = 0; c < 3; c += 1) sum += (Math.sqrt(a[at + c]!) - Math.sqrt(b[to + c]!)) ** 2;
  return sum;
};

/** The two nearest places of the map along one side, and the share of the second. */
const between = (index: number, length: number, places: number) => {
  const at = Math.min(places - 1, Math.max(0, ((index + 0.5) * places) / length - 0.5));
  const first = Math.min(places - 1, Math.floor(at));
  return { first, second: Math.min(places - 1, first + 1), share: at - first };
};

/**
 * @param small the picture averaged to the size of the map.
 * @param smooth largest difference in parts that still counts as one surface, which is averaged.
 * @returns parts for each pixel of the picture, row-major.
 */
export const fitDepth = (
  grid: Grid,
  picture: ReducedFrame,
  small: ReducedFrame,
  smooth: number,
): Float32Array => {
  const { columns, rows, pixels } = picture;
  if (grid.widthPx === columns && grid.heightPx === rows) return grid.parts;
  const { parts, widthPx } = grid;
  const out = new Float32Array(columns * rows);
  const acrosses = Array.from({ length: columns }, (_, x) => between(x, columns, widthPx));
  const four = new Int32Array(4);
  for (let y = 0; y < rows; y += 1) {
    const down = between(y, rows, grid.heightPx);
    for (let x = 0; x < columns; x += 1) {
      const across = acrosses[x]!;
      four[0] = down.first * widthPx + across.first;
      four[1] = down.first * widthPx + across.second;
      four[2] = down.second * widthPx + across.first;
      four[3] = down.second * widthPx + across.second;
      const [a, b, c, d] = [parts[four[0]], parts[four[1]], parts[four[2]], parts[four[3]]] as [
        number,
        number,
        number,
        number,
      ];
      const at = y * columns + x;
      if (Math.max(a, b, c, d) - Math.min(a, b, c, d) <= smooth) {
        const upper = a + across.share * (b - a);
        out[at] = upper + down.share * (c + across.share * (d - c) - upper);
        continue;
      }
      let least = Infinity;
      for (let i = 0; i < 4; i += 1) {
        const place = four[i]!;
        const dx = i % 2 === 0 ? across.share : 1 - across.share;
        const dy = i < 2 ? down.share : 1 - down.share;
        // Among colours alike within the noise, the nearer place wins.
        const cost = (unlike(pixels, 3 * at, small.pixels, 3 * place) + 40) * (1 + dx + dy);
        if (cost < least) {
          least = cost;
          out[at] = parts[place]!;
        }
      }
    }
  }
  return out;
};
