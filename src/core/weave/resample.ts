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

/** Ends of the source beyond which its edge is mirrored; elsewhere there is paper. */
export interface MirroredEnds {
  readonly before: boolean;
  readonly after: boolean;
}

const noMirrors: MirroredEnds = { before: false, after: false };

type Stretch = readonly [from: number, to: number];

/** The parts of the source that a stretch shows: what lies in it, and what is mirrored at its ends. */
const partsIn = ([left, right]: Stretch, length: number, ends: MirroredEnds): Stretch[] => {
  const parts: Stretch[] = [[left, right]];
  if (ends.before && left < 0) parts.push([-Math.min(0, right), -left]);
  if (ends.after && right > length)
    parts.push([2 * length - right, 2 * length - Math.max(length, left)]);
  return parts.flatMap(([from, to]): Stretch[] => {
    const inside: Stretch = [Math.max(0, from), Math.min(length, to)];
    return inside[1] > inside[0] ? [inside] : [];
  });
};

/**
 * @param edges of the samples in source pixels, rising, length samples + 1: sample i reaches from edges[i] to
 *   edges[i + 1]. The part outside [0, sourceLength] is paper, or mirrored.
 */
export const axisMap = (
  edges: Float64Array,
  sourceLength: number,
  ends: MirroredEnds = noMirrors,
): AxisMap => {
  const samples = edges.length - 1;
  const start = new Uint32Array(samples + 1);
  const source: number[] = [];
  const weight: number[] = [];
  const paper = new Float32Array(samples);
  for (let i = 0; i < samples; i += 1) {
    const left = edges[i]!;
    const right = edges[i + 1]!;
    const parts = partsIn([left, right], sourceLength, ends);
    const inside = parts.reduce((sum, [from, to]) => sum + to - from, 0) / (right - left);
    // Rounding in the edges must not let paper into a frame that fills the print.
    const share = inside > 1 - 1e-9 ? 1 : inside < 1e-9 ? 0 : inside;
    paper[i] = 1 - share;
    const widened = (part: Stretch) => (right - left >= 1 ? part : onePixel(part, sourceLength));
    const covered = share === 0 ? [] : parts.map(widened);
    const whole = covered.reduce((sum, [from, to]) => sum + to - from, 0);
    for (const [from, to] of covered)
      for (
        let pixel = Math.floor(from);
        pixel < Math.min(sourceLength, Math.ceil(to));
        pixel += 1
      ) {
        const part = Math.min(to, pixel + 1) - Math.max(from, pixel);
        if (part <= 1e-9) continue;
        source.push(pixel);
        weight.push((part / whole) * share);
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

/** A pixel’s width around the middle of a narrower stretch. */
const onePixel = ([left, right]: Stretch, length: number): Stretch => {
  if (length < 1) return [left, right];
  const from = Math.min(Math.max(0, (left + right) / 2 - 0.5), length - 1);
  return [from, from + 1];
};

/** Edges that divide a length into equal samples. */
export const evenEdges = (samples: number, length: number): Float64Array =>
  Float64Array.from({ length: samples + 1 }, (_, i) => (i * length) / samples);
