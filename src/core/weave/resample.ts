/**
 * Area sampling along one axis: each output sample is the average of the source pixels that it covers. A stretch
 * shorter than a pixel is widened to one, which makes it linear interpolation.
 */

/** Sparse rows in compressed form; `paper[i]` is the share of sample i outside the source. */
export interface AxisMap {
  readonly samples: number;
  readonly start: Uint32Array;
  readonly source: Uint32Array;
  readonly weight: Float32Array;
  readonly paper: Float32Array;
}

/**
 * @param edges of the samples in source pixels, rising, length samples + 1: sample i reaches from edges[i] to
 *   edges[i + 1]. The part outside [0, sourceLength] is paper.
 */
export const axisMap = (edges: Float64Array, sourceLength: number): AxisMap => {
  const samples = edges.length - 1;
  const start = new Uint32Array(samples + 1);
  const source: number[] = [];
  const weight: number[] = [];
  const paper = new Float32Array(samples);
  for (let i = 0; i < samples; i += 1) {
    const left = edges[i]!;
    const right = edges[i + 1]!;
    const insideLeft = Math.max(0, left);
    const insideRight = Math.min(sourceLength, right);
    const inside = Math.min(1, Math.max(0, (insideRight - insideLeft) / (right - left)));
    // Rounding in the edges must not let paper into a frame that fills the print.
    const share = inside > 1 - 1e-9 ? 1 : inside < 1e-9 ? 0 : inside;
    paper[i] = 1 - share;
    if (share > 0) {
      const [from, to] = atLeastOnePixel(insideLeft, insideRight, sourceLength);
      for (
        let pixel = Math.floor(from);
        pixel < Math.min(sourceLength, Math.ceil(to));
        pixel += 1
      ) {
        const covered = Math.min(to, pixel + 1) - Math.max(from, pixel);
        if (covered <= 1e-9) continue;
        source.push(pixel);
        weight.push((covered / (to - from)) * share);
      }
    }
    start[i + 1] = source.length;
  }
  return {
    samples,
    start,
    source: Uint32Array.from(source),
    weight: Float32Array.from(weight),
    paper,
  };
};

const atLeastOnePixel = (left: number, right: number, length: number): [number, number] => {
  if (right - left >= 1 || length < 1) return [left, right];
  const from = Math.min(Math.max(0, (left + right) / 2 - 0.5), length - 1);
  return [from, from + 1];
};

/** Edges that divide a length into equal samples. */
export const evenEdges = (samples: number, length: number): Float64Array =>
  Float64Array.from({ length: samples + 1 }, (_, i) => (i * length) / samples);
