/** Weaving under lying ribs: a row of the sheet is a mix of rows of frames, stretched along itself. */

/** Eight whole numbers of 16 bits, as four pairs of 64-bit fractions: each times the share, added to a sum. */
function added(sum: v128, pair: v128, share: v128): v128 {
  return f64x2.add(sum, f64x2.mul(f64x2.convert_low_i32x4_u(pair), share));
}

/** The upper two of four whole numbers, in the place of the lower two. */
function upper(four: v128): v128 {
  return v128.shuffle<u64>(four, four, 1, 0);
}

/**
 * The sum of rows of light, each times its share, rounded.
 * @param rows u32[count]: address of each row, u16[samples] of linear light 0 … 65535, read up to 16 bytes beyond its end
 * @param shares f64[count]; their sum is 1
 * @param samples numbers in a row, three a dot
 * @param into u16[samples] of linear light, written up to 16 bytes beyond its end
 */
export function mixRow(rows: usize, shares: usize, count: u32, samples: u32, into: usize): void {
  const bytes = (<usize>samples) << 1;
  for (let at: usize = 0; at < bytes; at += 16) {
    let a = f64x2.splat(0.5);
    let b = a;
    let c = a;
    let d = a;
    for (let row: u32 = 0; row < count; row += 1) {
      const eight = v128.load(<usize>load<u32>(rows + (row << 2)) + at);
      const share = v128.load64_splat(shares + (row << 3));
      const low = i32x4.extend_low_i16x8_u(eight);
      const high = i32x4.extend_high_i16x8_u(eight);
      a = added(a, low, share);
      b = added(b, upper(low), share);
      c = added(c, high, share);
      d = added(d, upper(high), share);
    }
    const low = v128.shuffle<u64>(
      i32x4.trunc_sat_f64x2_u_zero(a),
      i32x4.trunc_sat_f64x2_u_zero(b),
      0,
      2,
    );
    const high = v128.shuffle<u64>(
      i32x4.trunc_sat_f64x2_u_zero(c),
      i32x4.trunc_sat_f64x2_u_zero(d),
      0,
      2,
    );
    v128.store(into + at, i16x8.narrow_i32x4_u(low, high));
  }
}

/**
 * Codes of dots that lie between the samples of a row: the code of left + (right − left) × part / 16384, rounded.
 * @param line u16[3 a sample] of linear light; up to 8 bytes beyond its end are read
 * @param steps u32[2 × dots]: bytes from `line` to the sample on the left of each dot; and 0 … 16384, how far it lies
 *   from there to the next
 * @param next bytes from a sample to the next one: 6, or 0 where there is one alone
 * @param red u8[65536], the code of every light; likewise `green` and `blue`. They may be the same table.
 * @param out u8[dots × 3]
 */
export function stretchRow(
  line: usize,
  steps: usize,
  next: usize,
  dots: u32,
  red: usize,
  green: usize,
  blue: usize,
  out: usize,
): void {
  const end = steps + ((<usize>dots) << 3);
  const half = i32x4.splat(8192);
  for (; steps < end; steps += 8, out += 3) {
    const left = line + load<u32>(steps);
    const part = load<u32>(steps, 4);
    const light = i32x4.shr_u(
      i32x4.add(
        i32x4.add(
          i32x4.extmul_low_i16x8_u(v128.load64_zero(left), i16x8.splat(<i16>(16384 - part))),
          i32x4.extmul_low_i16x8_u(v128.load64_zero(left + next), i16x8.splat(<i16>part)),
        ),
        half,
      ),
      14,
    );
    store<u8>(out, load<u8>(red + i32x4.extract_lane(light, 0)));
    store<u8>(out, load<u8>(green + i32x4.extract_lane(light, 1)), 1);
    store<u8>(out, load<u8>(blue + i32x4.extract_lane(light, 2)), 2);
  }
}
