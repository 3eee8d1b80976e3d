/**
 * The low-pass filter that softens what lies beyond the sharp range, after the display-bandwidth analysis of Zwicker,
 * Matusik, Durand and Pfister, "Antialiasing for Automultiscopic 3D Displays" (EGSR 2006): motion of s ribs per view
 * can be shown only up to 1/|s| of the highest frequency of the ribs, half a cycle for each lenticule.
 *
 * The kernel is the discrete Gaussian e^−t I_n(t) (Lindeberg 1990). Its response is exactly exp(t (cos ω − 1)), and
 * at t = 0 it changes nothing.
 */

/**
 * Variance t, in lenticules squared, for a step in ribs per view; 0 within the sharp range. At full strength the
 * response at the published cut-off, ω = π / |s|, is 2^−(1 − 1/s²). Every frame has already been averaged over a
 * lenticule; together that makes 0.64 at |s| = 1, 0.54 at 2 and 1/2 in the limit.
 * @param strength 0 … 1: width of the kernel / that of full strength.
 */
const softVariance = (step: number, strength: number): number => {
  const size = Math.abs(step);
  if (!(size > 1)) return 0;
  const full = (Math.LN2 * (1 - 1 / (size * size))) / (1 - Math.cos(Math.PI / size));
  return strength * strength * full;
};

/** Kernels are kept by width (standard deviation), in steps of this part of a lenticule. */
const WIDTHS_A_LENTICULE = 64;
/** The widest kernel: at 50 ribs per view, the most in a job, it is 18.6 lenticules. */
export const WIDEST = 24 * WIDTHS_A_LENTICULE;

/** @returns whole steps of 1/64 lenticule; 0: nothing to soften. */
export const softWidth = (step: number, strength: number): number =>
  Math.min(WIDEST, Math.round(Math.sqrt(softVariance(step, strength)) * WIDTHS_A_LENTICULE));

const kept = new Map<number, Float64Array>();

/** Half the kernel: weights at 0, 1, 2 … lenticules, with w0 + 2 (w1 + w2 + …) = 1. */
export const softKernel = (width: number): Float64Array => {
  const had = kept.get(width);
  if (had !== undefined) return had;
  const kernel = discreteGaussian((width / WIDTHS_A_LENTICULE) ** 2);
  kept.set(width, kernel);
  return kernel;
};

/** Smaller weights are left out: a sixteenth of a step of 16-bit light. */
const LEAST_WEIGHT = 1e-6;

/** By Miller’s backward recurrence of the modified Bessel functions, I_n−1 = I_n+1 + (2n / t) I_n. */
const discreteGaussian = (t: number): Float64Array => {
  if (t === 0) return Float64Array.of(1);
  const last = Math.ceil(6 * Math.sqrt(t)) + 6;
  const bessel = new Float64Array(last + 1);
  let [above, here] = [0, 1e-250];
  for (let n = last + 8; n >= 0; n -= 1) {
    if (n <= last) bessel[n] = here;
    [above, here] = [here, above + ((2 * n) / t) * here];
  }
  const whole = sumBothSides(bessel);
  let size = 1;
  while (size < bessel.length && bessel[size]! / whole > LEAST_WEIGHT) size += 1;
  const used = bessel.subarray(0, size);
  const sum = sumBothSides(used);
  return used.map((value) => value / sum);
};

const sumBothSides = (half: Float64Array): number =>
  half.reduce((sum, value, n) => sum + (n === 0 ? value : 2 * value), 0);
