/** Grey pictures at other sizes, and with the light evened out. Pixel i reaches from i to i + 1; its middle is i + ½. */
import { axisMap, evenEdges } from '../../weave/resample.ts';
import type { Plane } from '../parallax/plane.ts';

/** At a factor of its size, averaged by area; what is left of a pixel at the far edges is cut off. */
export const resizedBy = (plane: Plane, factor: number): Plane => {
  if (factor === 1) return plane;
  const width = Math.max(1, Math.floor(plane.width * factor + 1e-9));
  const height = Math.max(1, Math.floor(plane.height * factor + 1e-9));
  const across = axisMap(evenEdges(width, width / factor), plane.width);
  const down = axisMap(evenEdges(height, height / factor), plane.height);
  const rows = new Float32Array(width * plane.height);
  for (let y = 0; y < plane.height; y += 1)
    for (let x = 0; x < width; x += 1) {
      let sum = 0;
      for (let e = across.start[x]!; e < across.start[x + 1]!; e += 1)
        sum += across.weight[e]! * plane.data[y * plane.width + across.source[e]!]!;
      rows[y * width + x] = sum;
    }
  const data = new Float32Array(width * height);
  for (let y = 0; y < height; y += 1)
    for (let e = down.start[y]!; e < down.start[y + 1]!; e += 1) {
      const [from, weight] = [down.source[e]! * width, down.weight[e]!];
      for (let x = 0; x < width; x += 1) data[y * width + x]! += weight * rows[from + x]!;
    }
  return { width, height, data };
};

/** The mean over squares of 2 × radius + 1 pixels, of what of them lies on the plane. */
export const meanAround = ({ width, height, data }: Plane, radius: number): Plane => {
  const sums = new Float64Array((width + 1) * (height + 1));
  for (let y = 0; y < height; y += 1) {
    let line = 0;
    for (let x = 0; x < width; x += 1) {
      line += data[y * width + x]!;
      sums[(y + 1) * (width + 1) + x + 1] = sums[y * (width + 1) + x + 1]! + line;
    }
  }
  const out = new Float32Array(data.length);
  for (let y = 0; y < height; y += 1) {
    const [top, bottom] = [Math.max(0, y - radius), Math.min(height, y + radius + 1)];
    for (let x = 0; x < width; x += 1) {
      const [left, right] = [Math.max(0, x - radius), Math.min(width, x + radius + 1)];
      const sum =
        sums[bottom * (width + 1) + right]! -
        sums[top * (width + 1) + right]! -
        sums[bottom * (width + 1) + left]! +
        sums[top * (width + 1) + left]!;
      out[y * width + x] = sum / ((bottom - top) * (right - left));
    }
  }
  return { width, height, data: out };
};

/** Adds to a contrast, so that the noise of a bare wall stays small: two hundredths of full scale. */
const LEAST_CONTRAST = 0.02;

/** Less its mean around, over its contrast around: pictures of another exposure become alike. */
export const evened = (plane: Plane, radius: number): Plane => {
  const mean = meanAround(plane, radius).data;
  const squares = meanAround({ ...plane, data: plane.data.map((value) => value * value) }, radius);
  const data = plane.data.map((value, at) => {
    const contrast = Math.sqrt(Math.max(0, squares.data[at]! - mean[at]! ** 2));
    return (value - mean[at]!) / (contrast + LEAST_CONTRAST);
  });
  return { ...plane, data };
};
