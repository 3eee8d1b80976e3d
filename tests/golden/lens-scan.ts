/**
 * A flatbed scan of a bare lens, simulated on the test side from the rib's own shape: a circular arc lit
 * by lamps from a slant. Where the arc's normal halves the way between lamp and sensor it glints; the
 * rest is white paper seen through the lens. Each pixel is the mean over its own square.
 */

/** Own generator of the tests: mulberry32 (public domain). */
export const randomFrom = (seed: number) => {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), state | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
};

export interface LensScan {
  readonly seed: number;
  readonly dpi: number;
  readonly lensLpi: number;
  readonly widthPx: number;
  readonly heightPx: number;
  /** Of the ribs from upright, radians. */
  readonly tiltRad: number;
  /** Ribs lie from left to right instead. */
  readonly lying?: boolean;
  /** 2: a lamp on both sides of the sensor, so that each rib glints twice. */
  readonly lamps: 1 | 2;
  /** Deviation of a pixel's noise, of full scale. */
  readonly noise: number;
  /** Amplitude of the carriage's hurry and lag, pixels. */
  readonly sway?: number;
  /** 0: bare glass without ribs. */
  readonly contrast?: number;
}

const STEPS = 512;

/** Light over one rib, as the sensor's column sees it. */
const ribProfile = (lamps: 1 | 2): Float64Array =>
  Float64Array.from({ length: STEPS }, (_, i) => {
    const u = (i + 0.5) / STEPS - 0.5;
    // Half-width of a rib over its radius: 0.88, as of the lens of docs/optics.md's check values.
    const normal = Math.asin(2 * u * 0.88);
    const glint = (lamp: number) => Math.exp(-(((normal - lamp / 2) / 0.07) ** 2));
    const paper = 0.45 * Math.cos(normal) ** 2;
    return paper + 0.5 * glint(0.9) + (lamps === 2 ? 0.48 * glint(-0.9) : 0);
  });

/** Grey, row-major, 8 bit. */
export const scanLens = (scan: LensScan): Uint8Array => {
  const { seed, dpi, lensLpi, widthPx, heightPx, tiltRad, noise, sway = 0, contrast = 1 } = scan;
  const random = randomFrom(seed);
  const profile = ribProfile(scan.lamps);
  const mean = profile.reduce((sum, v) => sum + v, 0) / STEPS;
  const integral = new Float64Array(STEPS + 1);
  for (let i = 0; i < STEPS; i += 1) integral[i + 1] = integral[i]! + profile[i]! / STEPS;
  // Light from rib 0 up to place `t`, in ribs: pixel means come from differences.
  const upTo = (t: number) => {
    const whole = Math.floor(t);
    const at = (t - whole) * STEPS;
    const low = Math.floor(at);
    const part = integral[low]! + (at - low) * (integral[low + 1]! - integral[low]!);
    return whole * integral[STEPS]! + part;
  };
  const perPx = lensLpi / dpi;
  const [along, square] = [perPx * Math.sin(tiltRad), perPx * Math.cos(tiltRad)];
  const start = random();
  const gauss = () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
  const out = new Uint8Array(widthPx * heightPx);
  for (let y = 0; y < heightPx; y += 1)
    for (let x = 0; x < widthPx; x += 1) {
      const [across, down] = scan.lying === true ? [y, x] : [x, y];
      const swayed = across + sway * Math.sin((2 * Math.PI * across) / 700);
      const t = start + square * swayed + along * down;
      const light = (upTo(t + square / 2) - upTo(t - square / 2)) / square;
      const shade = 0.9 + 0.1 * Math.cos((3 * x) / widthPx + (2 * y) / heightPx);
      const value = shade * (mean + contrast * (light - mean)) + noise * gauss();
      out[y * widthPx + x] = Math.max(0, Math.min(255, Math.round(255 * value)));
    }
  return out;
};
