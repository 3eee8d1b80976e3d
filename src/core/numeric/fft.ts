/** Fast Fourier transform (radix 2, in place). */

/**
 * Replaces (re, im) by their spectrum, Σ x_n e^(−2πi k n / N), unscaled.
 * @throws RangeError where the lengths differ or are not a power of two.
 */
export const fft = (re: Float64Array, im: Float64Array): void => {
  const n = re.length;
  if (im.length !== n || n < 2 || (n & (n - 1)) !== 0)
    throw new RangeError(
      `re, im: expected equal lengths, a power of two, received ${n} and ${im.length}`,
    );
  swapToReversed(re, im);
  for (let size = 2; size <= n; size *= 2) butterflies(re, im, size);
};

const swapToReversed = (re: Float64Array, im: Float64Array): void => {
  const n = re.length;
  for (let i = 1, j = 0; i < n; i += 1) {
    let bit = n >> 1;
    for (; j & bit; bit >>= 1) j ^= bit;
    j ^= bit;
    if (i >= j) continue;
    [re[i], re[j]] = [re[j]!, re[i]!];
    [im[i], im[j]] = [im[j]!, im[i]!];
  }
};

const butterflies = (re: Float64Array, im: Float64Array, size: number): void => {
  const half = size / 2;
  for (let k = 0; k < half; k += 1) {
    const angle = (-2 * Math.PI * k) / size;
    const [c, s] = [Math.cos(angle), Math.sin(angle)];
    for (let a = k; a < re.length; a += size) {
      const b = a + half;
      const r = re[b]! * c - im[b]! * s;
      const i = re[b]! * s + im[b]! * c;
      re[b] = re[a]! - r;
      im[b] = im[a]! - i;
      re[a]! += r;
      im[a]! += i;
    }
  }
};

/** The smallest power of two that is at least `n`, and at least 2. */
export const powerOfTwo = (n: number): number => 2 ** Math.ceil(Math.log2(Math.max(2, n)));

/** Hann window of `n` samples, taken at their middles. */
export const hann = (n: number): Float64Array =>
  Float64Array.from({ length: n }, (_, i) => 0.5 - 0.5 * Math.cos((2 * Math.PI * (i + 0.5)) / n));

/** Position of a peak between samples: the top of the parabola through the logarithms of three samples. */
export const peakPlace = (power: ArrayLike<number>, at: number): number => {
  const [a, b, c] = [at - 1, at, at + 1].map((i) => Math.log(Math.max(1e-300, power[i] ?? 0))) as [
    number,
    number,
    number,
  ];
  const bend = a - 2 * b + c;
  return bend < 0 ? at + Math.max(-0.5, Math.min(0.5, (a - c) / (2 * bend))) : at;
};
