/**
 * The one scan converter, used for the pictures, for the sun's shadow map and for the soft light from the sky.
 *
 * Every corner comes with a place (sx, sy) in samples and a key that is larger the nearer it is. The key must be linear
 * across the picture: 1/(D + z) for the cameras, plain distance for parallel light.
 */

/**
 * @param {object} job
 *   triangles: Uint32Array, three corners each; sx, sy, key: Float32Array, one per corner;
 *   width, height: samples; nearest: Float32Array, row-major, largest key so far;
 *   owner: Int32Array, row-major, the triangle seen there (optional);
 *   coverOf: (triangle) => −1 to draw all samples, 0 to skip, else a mask of the 3 × 3 samples of each pixel
 */
export function rasterise({ triangles, sx, sy, key, width, height, nearest, owner, coverOf }) {
  const count = triangles.length / 3;
  for (let t = 0; t < count; t++) {
    const cover = coverOf(t);
    if (cover === 0) continue;
    const a = triangles[3 * t];
    const b = triangles[3 * t + 1];
    const c = triangles[3 * t + 2];
    const ax = sx[a],
      ay = sy[a],
      bx = sx[b],
      by = sy[b],
      cx = sx[c],
      cy = sy[c];
    const area = (bx - ax) * (cy - ay) - (cx - ax) * (by - ay);
    if (area === 0 || !(Math.abs(area) > 1e-7)) continue;
    const top = Math.max(0, Math.ceil(Math.min(ay, by, cy) - 0.5));
    const bottom = Math.min(height - 1, Math.floor(Math.max(ay, by, cy) - 0.5));
    if (top > bottom) continue;
    const left = Math.max(0, Math.ceil(Math.min(ax, bx, cx) - 0.5));
    const right = Math.min(width - 1, Math.floor(Math.max(ax, bx, cx) - 0.5));
    if (left > right) continue;
    const sign = area > 0 ? 1 : -1;
    // Inside is where all three edge functions e = ex·x + ey·y + e0 are not negative.
    const ux = -(by - ay) * sign,
      uy = (bx - ax) * sign,
      u0 = -(ux * ax + uy * ay);
    const vx = -(cy - by) * sign,
      vy = (cx - bx) * sign,
      v0 = -(vx * bx + vy * by);
    const wx = -(ay - cy) * sign,
      wy = (ax - cx) * sign,
      w0 = -(wx * cx + wy * cy);
    const inverse = 1 / area;
    const keyX = ((key[b] - key[a]) * (cy - ay) - (key[c] - key[a]) * (by - ay)) * inverse;
    const keyY = ((key[c] - key[a]) * (bx - ax) - (key[b] - key[a]) * (cx - ax)) * inverse;
    const key0 = key[a] - keyX * ax - keyY * ay;
    // Neighbours overlap by a hair rather than leave a pinhole between them.
    const hair = 2e-4;
    for (let row = top; row <= bottom; row++) {
      const y = row + 0.5;
      let low = left + 0.5;
      let high = right + 0.5;
      let e = uy * y + u0;
      if (ux > 0) low = Math.max(low, -e / ux - hair);
      else if (ux < 0) high = Math.min(high, -e / ux + hair);
      else if (e < 0) continue;
      e = vy * y + v0;
      if (vx > 0) low = Math.max(low, -e / vx - hair);
      else if (vx < 0) high = Math.min(high, -e / vx + hair);
      else if (e < 0) continue;
      e = wy * y + w0;
      if (wx > 0) low = Math.max(low, -e / wx - hair);
      else if (wx < 0) high = Math.min(high, -e / wx + hair);
      else if (e < 0) continue;
      const from = Math.ceil(low - 0.5);
      const to = Math.floor(high - 0.5);
      const start = row * width;
      const rowBits = (row % 3) * 3;
      let k = keyX * (from + 0.5) + keyY * y + key0;
      for (let column = from; column <= to; column++, k += keyX) {
        if (k <= nearest[start + column]) continue;
        if (cover !== -1 && !((cover >> (rowBits + (column % 3))) & 1)) continue;
        nearest[start + column] = k;
        if (owner) owner[start + column] = t;
      }
    }
  }
}
