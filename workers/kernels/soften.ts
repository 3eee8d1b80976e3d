/** Softening across the ribs (src/core/weave/soften.ts). */

/**
 * One row of samples, each averaged with a kernel of its own width. A neighbour with a smaller width counts for
 * proportionally less.
 * @param source u16[3 × samples] of linear light; 2 bytes beyond its end are read
 * @param widths u16[samples]; 0 leaves a sample as it is
 * @param halves u32[2 for each width]: address of half the width's kernel, f64 at 0, 1, 2 … samples, and how many of
 *   them lie beside the first. Only those of widths that occur are read.
 * @param into u16[3 × samples]; may not overlap `source`
 */
export function softenRow(
  source: usize,
  widths: usize,
  halves: usize,
  samples: i32,
  into: usize,
): void {
  for (let x: i32 = 0; x < samples; x += 1, into += 6) {
    const own = <u32>load<u16>(widths + ((<usize>x) << 1));
    if (own === 0) {
      memory.copy(into, source + 6 * <usize>x, 6);
      continue;
    }
    const half = <usize>load<u32>(halves + (own << 3));
    const reach = <i32>load<u32>(halves + (own << 3), 4);
    const first: i32 = x > reach ? x - reach : 0;
    const last: i32 = x + reach < samples ? x + reach : samples - 1;
    let redGreen = f64x2.splat(0);
    let blue: f64 = 0;
    let whole: f64 = 0;
    for (let at: i32 = first; at <= last; at += 1) {
      const beside = <u32>load<u16>(widths + ((<usize>at) << 1));
      const share = beside < own ? <f64>beside / <f64>own : 1;
      const away: i32 = at < x ? x - at : at - x;
      const weight = load<f64>(half + ((<usize>away) << 3)) * share;
      const sample = i32x4.extend_low_i16x8_u(v128.load64_zero(source + 6 * <usize>at));
      redGreen = f64x2.add(
        redGreen,
        f64x2.mul(f64x2.convert_low_i32x4_u(sample), f64x2.splat(weight)),
      );
      blue += weight * <f64>i32x4.extract_lane(sample, 2);
      whole += weight;
    }
    const mean = i32x4.trunc_sat_f64x2_u_zero(
      f64x2.add(f64x2.div(redGreen, f64x2.splat(whole)), f64x2.splat(0.5)),
    );
    store<u16>(into, <u16>i32x4.extract_lane(mean, 0));
    store<u16>(into, <u16>i32x4.extract_lane(mean, 1), 2);
    store<u16>(into, <u16>(<u32>(blue / whole + 0.5)), 4);
  }
}
