/** Grey pictures to match, and their pyramids. */

/** Row-major, length width × height, any scale: gain and offset do not affect matching. */
export interface Plane {
  readonly width: number;
  readonly height: number;
  readonly data: Float32Array;
  /** The same before it was softened, where that is kept: which side of an edge a pixel lies on shows only there. */
  readonly sharp?: Float32Array;
}

/** Half the size; each pixel is the mean of four. An odd last column or row is left out. */
const halved = ({ width, height, data }: Plane): Plane => {
  const halfWidth = width >> 1;
  const halfHeight = height >> 1;
  const half = new Float32Array(halfWidth * halfHeight);
  for (let y = 0; y < halfHeight; y += 1)
    for (let x = 0; x < halfWidth; x += 1) {
      const at = 2 * y * width + 2 * x;
      half[y * halfWidth + x] =
        (data[at]! + data[at + 1]! + data[at + width]! + data[at + width + 1]!) / 4;
    }
  return { width: halfWidth, height: halfHeight, data: half };
};

/** Weights 1 2 1 along rows and columns: removes jagged edges, which mislead interpolation. */
const softened = ({ width, height, data }: Plane): Plane => {
  const rows = new Float32Array(data.length);
  const soft = new Float32Array(data.length);
  for (let y = 0; y < height; y += 1)
    for (let x = 0; x < width; x += 1) {
      const at = y * width + x;
      const left = data[x > 0 ? at - 1 : at]!;
      const right = data[x < width - 1 ? at + 1 : at]!;
      rows[at] = (left + 2 * data[at]! + right) / 4;
    }
  for (let y = 0; y < height; y += 1)
    for (let x = 0; x < width; x += 1) {
      const at = y * width + x;
      const above = rows[y > 0 ? at - width : at]!;
      const below = rows[y < height - 1 ? at + width : at]!;
      soft[at] = (above + 2 * rows[at]! + below) / 4;
    }
  return { width, height, data: soft };
};

/** A level with a shorter side holds too little to match. */
const COARSEST_PX = 40;
const LEVELS_AT_MOST = 6;

/** Pyramid of a plane, finest first. */
export const pyramidOf = (plane: Plane): Plane[] => {
  const levels: Plane[] = [{ ...softened(plane), sharp: plane.data }];
  let last = plane;
  while (levels.length < LEVELS_AT_MOST && Math.min(last.width, last.height) >= 2 * COARSEST_PX) {
    last = halved(last);
    levels.push(softened(last));
  }
  return levels;
};

/**
 * Square root of the luma of linear light, so that shadows count.
 * @param light row-major RGB, 0 … 65535; Rec. 709 weights.
 */
export const planeOfLight = (columns: number, rows: number, light: Uint16Array): Plane => {
  const data = new Float32Array(columns * rows);
  for (let from = 0, to = 0; to < data.length; from += 3, to += 1)
    data[to] = Math.sqrt(
      (0.2126 * light[from]! + 0.7152 * light[from + 1]! + 0.0722 * light[from + 2]!) / 65535,
    );
  return { width: columns, height: rows, data };
};

/** Transposes rows and columns: across the ribs becomes left to right for lying ribs too. */
export const turned = ({ width, height, data }: Plane): Plane => {
  const out = new Float32Array(data.length);
  for (let y = 0; y < height; y += 1)
    for (let x = 0; x < width; x += 1) out[x * height + y] = data[y * width + x]!;
  return { width: height, height: width, data: out };
};
