/** Weaving under upright ribs: a row of the frames at the columns of the sheet, and rows between two such. */

/**
 * Weaves one row of the frames: dot j is the sum of the samples of its entries, each times its share, rounded.
 * @param row added to every address of `at`: where this row begins.
 * @param start u32[dots + 1]: dot j has the entries from start[j] up to start[j + 1].
 * @param at u32 for each entry: bytes from `row` to the sample, u16[3] of linear light 0 … 65535. Two bytes after the
 *   last sample are read too.
 * @param weight f64 for each entry: its share, 0 … 1. Those of a dot sum to 1.
 * @param into u16[dots × 3]: linear light, 0 … 65535.
 */
export function weaveRow(
  row: usize,
  start: usize,
  at: usize,
  weight: usize,
  dots: u32,
  into: usize,
): void {
  const end = into + 6 * <usize>dots;
  let entry = load<u32>(start);
  for (; into < end; into += 6) {
    start += 4;
    const last = load<u32>(start);
    let redGreen = f64x2.splat(0.5);
    let blue: f64 = 0.5;
    for (; entry < last; entry += 1) {
      const from = row + load<u32>(at + ((<usize>entry) << 2));
      const share = load<f64>(weight + ((<usize>entry) << 3));
      const sample = i32x4.extend_low_i16x8_u(v128.load64_zero(from));
      redGreen = f64x2.add(
        redGreen,
        f64x2.mul(f64x2.convert_low_i32x4_u(sample), f64x2.splat(share)),
      );
      blue += <f64>i32x4.extract_lane(sample, 2) * share;
    }
    const whole = i32x4.trunc_sat_f64x2_u_zero(redGreen);
    store<u16>(into, <u16>i32x4.extract_lane(whole, 0));
    store<u16>(into, <u16>i32x4.extract_lane(whole, 1), 2);
    store<u16>(into, <u16>(<u32>blue), 4);
  }
}

/** Eight samples between two rows: (upper × rest + lower × part + half) >> 14. */
function between(upper: usize, lower: usize, rest: v128, part: v128): v128 {
  const above = v128.load(upper);
  const below = v128.load(lower);
  const half = i32x4.splat(8192);
  const left = i32x4.add(
    i32x4.add(i32x4.extmul_low_i16x8_u(above, rest), i32x4.extmul_low_i16x8_u(below, part)),
    half,
  );
  const right = i32x4.add(
    i32x4.add(i32x4.extmul_high_i16x8_u(above, rest), i32x4.extmul_high_i16x8_u(below, part)),
    half,
  );
  return i16x8.narrow_i32x4_u(i32x4.shr_u(left, 14), i32x4.shr_u(right, 14));
}

/**
 * Codes of the straight line between two rows of light: the code of upper + (lower − upper) × part / 16384, rounded.
 * @param upper u16[dots × 3] of linear light, 0 … 65535; it and `lower` may be read up to 48 bytes beyond their end.
 * @param part 0 … 16384: how far from the upper row to the lower.
 * @param red u8[65536], the code of every light; likewise `green` and `blue`. They may be the same table.
 * @param out u8[dots × 3], written up to 24 bytes beyond its end.
 */
export function blendRow(
  upper: usize,
  lower: usize,
  part: u32,
  red: usize,
  green: usize,
  blue: usize,
  dots: u32,
  out: usize,
): void {
  const share = i16x8.splat(<i16>part);
  const rest = i16x8.splat(<i16>(16384 - part));
  const end = out + 3 * <usize>dots;
  for (; out < end; out += 24, upper += 48, lower += 48) {
    const a = between(upper, lower, rest, share);
    const b = between(upper + 16, lower + 16, rest, share);
    const c = between(upper + 32, lower + 32, rest, share);
    store<u8>(out, load<u8>(red + i16x8.extract_lane_u(a, 0)));
    store<u8>(out, load<u8>(green + i16x8.extract_lane_u(a, 1)), 1);
    store<u8>(out, load<u8>(blue + i16x8.extract_lane_u(a, 2)), 2);
    store<u8>(out, load<u8>(red + i16x8.extract_lane_u(a, 3)), 3);
    store<u8>(out, load<u8>(green + i16x8.extract_lane_u(a, 4)), 4);
    store<u8>(out, load<u8>(blue + i16x8.extract_lane_u(a, 5)), 5);
    store<u8>(out, load<u8>(red + i16x8.extract_lane_u(a, 6)), 6);
    store<u8>(out, load<u8>(green + i16x8.extract_lane_u(a, 7)), 7);
    store<u8>(out, load<u8>(blue + i16x8.extract_lane_u(b, 0)), 8);
    store<u8>(out, load<u8>(red + i16x8.extract_lane_u(b, 1)), 9);
    store<u8>(out, load<u8>(green + i16x8.extract_lane_u(b, 2)), 10);
    store<u8>(out, load<u8>(blue + i16x8.extract_lane_u(b, 3)), 11);
    store<u8>(out, load<u8>(red + i16x8.extract_lane_u(b, 4)), 12);
    store<u8>(out, load<u8>(green + i16x8.extract_lane_u(b, 5)), 13);
    store<u8>(out, load<u8>(blue + i16x8.extract_lane_u(b, 6)), 14);
    store<u8>(out, load<u8>(red + i16x8.extract_lane_u(b, 7)), 15);
    store<u8>(out, load<u8>(green + i16x8.extract_lane_u(c, 0)), 16);
    store<u8>(out, load<u8>(blue + i16x8.extract_lane_u(c, 1)), 17);
    store<u8>(out, load<u8>(red + i16x8.extract_lane_u(c, 2)), 18);
    store<u8>(out, load<u8>(green + i16x8.extract_lane_u(c, 3)), 19);
    store<u8>(out, load<u8>(blue + i16x8.extract_lane_u(c, 4)), 20);
    store<u8>(out, load<u8>(red + i16x8.extract_lane_u(c, 5)), 21);
    store<u8>(out, load<u8>(green + i16x8.extract_lane_u(c, 6)), 22);
    store<u8>(out, load<u8>(blue + i16x8.extract_lane_u(c, 7)), 23);
  }
}
