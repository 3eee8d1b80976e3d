/**
 * Repeatable randomness. The scenes must come out the same on every machine, so nothing here may ask the clock or
 * Math.random.
 */

/** A seeded generator of numbers in [0, 1): a 32-bit counter through an integer mixing function. */
export function makeRandom(seed) {
  let state = seed >>> 0;
  const next = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  return {
    next,
    between: (low, high) => low + (high - low) * next(),
    /** Symmetric around zero: −a … a. */
    spread: (a) => (next() * 2 - 1) * a,
    pick: (list) => list[Math.floor(next() * list.length)],
  };
}

function latticeHash(x, y, z) {
  let h = Math.imul(x, 374761393) ^ Math.imul(y, 668265263) ^ Math.imul(z, 2147483647 - 1274126177);
  h = Math.imul(h ^ (h >>> 13), 1274126177);
  h = Math.imul(h ^ (h >>> 16), 0x85ebca6b);
  return ((h ^ (h >>> 15)) >>> 0) / 4294967296;
}

const ease = (t) => t * t * (3 - 2 * t);

/** Smooth value noise in [0, 1], one feature per unit. */
export function noise(x, y, z = 0) {
  const xi = Math.floor(x);
  const yi = Math.floor(y);
  const zi = Math.floor(z);
  const u = ease(x - xi);
  const v = ease(y - yi);
  const w = ease(z - zi);
  const layer = (zz) => {
    const a = latticeHash(xi, yi, zz);
    const b = latticeHash(xi + 1, yi, zz);
    const c = latticeHash(xi, yi + 1, zz);
    const d = latticeHash(xi + 1, yi + 1, zz);
    return a + (b - a) * u + (c - a + (a - b - c + d) * u) * v;
  };
  const near = layer(zi);
  return w === 0 ? near : near + (layer(zi + 1) - near) * w;
}

/** A few octaves of noise, still in [0, 1]. */
export function cloudNoise(x, y, z = 0, octaves = 4) {
  let sum = 0;
  let weight = 0.5;
  let total = 0;
  for (let i = 0; i < octaves; i++) {
    sum += weight * noise(x, y, z);
    total += weight;
    weight *= 0.5;
    x = x * 2.03 + 17.1;
    y = y * 2.03 + 5.7;
    z = z * 2.03;
  }
  return sum / total;
}

/** One number in [0, 1) for one whole-numbered cell, for bricks and tiles that differ a little. */
export const cellValue = (x, y, z = 0) => latticeHash(x | 0, y | 0, z | 0);
