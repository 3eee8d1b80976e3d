/**
 * Averaging a picture over lenticules and rows, in linear light. Light is f32, 0 … 65535; products and sums are made in
 * f64 and rounded to f32 where they are kept.
 */

const WHITE: f64 = 65535;

/**
 * The light of a row of codes.
 * @param codes u8[width × channels]
 * @param channels 3 or 4; the fourth is passed over
 * @param table f32[256], the light of each code
 * @param line f32[3 × width]
 */
export function lightRow(codes: usize, channels: u32, table: usize, width: u32, line: usize): void {
  const end = codes + <usize>width * channels;
  for (; codes < end; codes += channels, line += 12) {
    store<f32>(line, load<f32>(table + ((<usize>load<u8>(codes)) << 2)));
    store<f32>(line, load<f32>(table + ((<usize>load<u8>(codes, 1)) << 2)), 4);
    store<f32>(line, load<f32>(table + ((<usize>load<u8>(codes, 2)) << 2)), 8);
  }
}

/**
 * Averages pixels of a row: sample i is the sum of the pixels of its entries, each times its share, and of as much white
 * paper as lies beside the picture.
 * @param line f32[3 a pixel]; up to 4 bytes beyond its end are read
 * @param start u32[samples + 1]: sample i has the entries from start[i] up to start[i + 1]
 * @param source u32 for each entry: number of its pixel
 * @param weight f32 for each entry: its share, 0 … 1
 * @param paper f32[samples]: share of the paper, 0 … 1
 * @param into f32[3 × samples]
 */
export function averageRow(
  line: usize,
  start: usize,
  source: usize,
  weight: usize,
  paper: usize,
  samples: u32,
  into: usize,
): void {
  const end = into + <usize>samples * 12;
  let entry = load<u32>(start);
  for (; into < end; into += 12, paper += 4) {
    start += 4;
    const last = load<u32>(start);
    let blue = <f64>load<f32>(paper) * WHITE;
    let redGreen = f64x2.splat(blue);
    for (; entry < last; entry += 1) {
      const from = line + <usize>load<u32>(source + ((<usize>entry) << 2)) * 12;
      const share = <f64>load<f32>(weight + ((<usize>entry) << 2));
      redGreen = f64x2.add(
        redGreen,
        f64x2.mul(f64x2.promote_low_f32x4(v128.load64_zero(from)), f64x2.splat(share)),
      );
      blue += <f64>load<f32>(from, 8) * share;
    }
    v128.store64_lane(into, f32x4.demote_f64x2_zero(redGreen), 0);
    store<f32>(into, <f32>blue, 8);
  }
}

/** Adds to each of four numbers the one in `more`, times the share. */
function addedFour(sum: v128, more: v128, share: v128): v128 {
  const low = f64x2.add(
    f64x2.promote_low_f32x4(sum),
    f64x2.mul(f64x2.promote_low_f32x4(more), share),
  );
  const high = f64x2.add(
    f64x2.promote_low_f32x4(v128.shuffle<u64>(sum, sum, 1, 0)),
    f64x2.mul(f64x2.promote_low_f32x4(v128.shuffle<u64>(more, more, 1, 0)), share),
  );
  return v128.shuffle<u64>(f32x4.demote_f64x2_zero(low), f32x4.demote_f64x2_zero(high), 0, 2);
}

/**
 * Adds a row times its share to a sum of rows. Both f32[samples]; up to 12 bytes beyond the end of each are read, and of
 * the sum written.
 * @param samples numbers in a row, three a pixel
 */
export function addRow(row: usize, share: f64, samples: u32, sum: usize): void {
  const end = sum + ((<usize>samples) << 2);
  const shares = f64x2.splat(share);
  for (; sum < end; sum += 16, row += 16)
    v128.store(sum, addedFour(v128.load(sum), v128.load(row), shares));
}

/**
 * Rounds a row of light to whole numbers, white at most.
 * @param sum f32[samples], 0 or more; up to 12 bytes beyond its end are read
 * @param out u16[samples], written up to 6 bytes beyond its end
 */
export function roundRow(sum: usize, samples: u32, out: usize): void {
  const end = sum + ((<usize>samples) << 2);
  const half = f64x2.splat(0.5);
  for (; sum < end; sum += 16, out += 8) {
    const four = v128.load(sum);
    const low = f64x2.add(f64x2.promote_low_f32x4(four), half);
    const high = f64x2.add(f64x2.promote_low_f32x4(v128.shuffle<u64>(four, four, 1, 0)), half);
    const whole = v128.shuffle<u64>(
      i32x4.trunc_sat_f64x2_u_zero(low),
      i32x4.trunc_sat_f64x2_u_zero(high),
      0,
      2,
    );
    // Narrowing holds what is above white at white.
    v128.store64_lane(out, i16x8.narrow_i32x4_u(whole, whole), 0);
  }
}
