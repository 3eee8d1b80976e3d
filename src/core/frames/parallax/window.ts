/** The square window of matching, and what the kernels do not take over from it. */

/** Pixels from the middle to the edge. */
const RADIUS_PX = 7;
const SIZE = 2 * RADIUS_PX + 1;
/** Kernels take rows of so many. */
const LAID = 16;

/**
 * Gaussian weights whose standard deviation is half the radius, sum 1: f32[15 × 16] as the kernels take them, the
 * sixteenth of each row 0.
 */
export const laidWeights = new Float32Array(SIZE * LAID);

const weightAt = (x: number, y: number): number =>
  Math.exp((-2 * (x * x + y * y)) / (RADIUS_PX * RADIUS_PX));
let sum = 0;
for (let y = -RADIUS_PX; y <= RADIUS_PX; y += 1)
  for (let x = -RADIUS_PX; x <= RADIUS_PX; x += 1) sum += weightAt(x, y);
for (let y = -RADIUS_PX; y <= RADIUS_PX; y += 1)
  for (let x = -RADIUS_PX; x <= RADIUS_PX; x += 1)
    laidWeights[(y + RADIUS_PX) * LAID + x + RADIUS_PX] = weightAt(x, y) / sum;

/** `value` within 0 … most. */
export const clamp = (value: number, most: number): number =>
  value < 0 ? 0 : value > most ? most : value;
