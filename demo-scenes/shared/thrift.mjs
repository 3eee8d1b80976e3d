/**
 * Full-colour frames, for scenes whose skies would show bands in 256 colours, made a third smaller where nobody can see it.
 *
 * Busy places are rounded to steps of a few codes; calm places are left alone, since rounding shows only where colour
 * changes slowly. How busy a place is, is the spread of green over its 5 × 5 neighbourhood.
 */
export function thrift(rgb, width, height) {
  const out = new Uint8Array(rgb.length);
  for (let row = 0; row < height; row++) {
    for (let column = 0; column < width; column++) {
      let low = 255;
      let high = 0;
      for (let y = Math.max(0, row - 2); y <= Math.min(height - 1, row + 2); y++) {
        for (let x = Math.max(0, column - 2); x <= Math.min(width - 1, column + 2); x++) {
          const green = rgb[3 * (y * width + x) + 1];
          if (green < low) low = green;
          if (green > high) high = green;
        }
      }
      const spread = high - low;
      const step = spread > 60 ? 10 : spread > 30 ? 6 : spread > 14 ? 4 : spread > 7 ? 2 : 1;
      const at = 3 * (row * width + column);
      for (let c = 0; c < 3; c++)
        out[at + c] = Math.min(255, Math.round(rgb[at + c] / step) * step);
    }
  }
  return out;
}
