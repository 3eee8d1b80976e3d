/** The tilt proof without a graphics card: a line of it as sums of samples. */

/** Codes of red, green and blue. */
const ALL: u32 = 0;
/** The luminance of what is seen in red alone: red glass over the left eye (ITU-R BT.709 weights, of 65,536). */
const LEFT_IN_RED: u32 = 1;

/**
 * One line of pixels, each the sum of its samples times their shares, rounded and encoded.
 * @param line added to every address of `at`: where the samples of this line begin.
 * @param start u32[pixels + 1]: pixel i has the entries from start[i] up to start[i + 1].
 * @param at u32 for each entry: bytes from `line` to the sample, u16[4] of linear light 0 … 65535, the fourth unused.
 * @param share u32 for each entry, of 65,536. Those of a pixel sum to it.
 * @param table u8[65536]: the code of every light.
 * @param pass 0: all channels. 1: the luminance in red. 2: green and blue.
 * @param out the first pixel, u8[4]; channels that the pass does not draw stay.
 * @param step bytes from one pixel to the next.
 */
export function proofRow(
  line: usize,
  start: usize,
  at: usize,
  share: usize,
  pixels: u32,
  table: usize,
  pass: u32,
  out: usize,
  step: usize,
): void {
  let entry = load<u32>(start);
  for (let pixel: u32 = 0; pixel < pixels; pixel += 1, out += step) {
    start += 4;
    const last = load<u32>(start);
    // Half of one light, so that the shift rounds; 65535 × 65536 + 32768 still fits 32 bits.
    let sum = i32x4.splat(32768);
    for (; entry < last; entry += 1) {
      const place = (<usize>entry) << 2;
      const sample = i32x4.extend_low_i16x8_u(v128.load64_zero(line + load<u32>(at + place)));
      sum = i32x4.add(sum, i32x4.mul(sample, i32x4.splat(load<u32>(share + place))));
    }
    const light = i32x4.shr_u(sum, 16);
    const red = <u32>i32x4.extract_lane(light, 0);
    const green = <u32>i32x4.extract_lane(light, 1);
    const blue = <u32>i32x4.extract_lane(light, 2);
    if (pass === LEFT_IN_RED) {
      // Numbers written out are signed, and this sum needs all 32 bits.
      const luminance: u32 = red * <u32>13933 + green * <u32>46871 + blue * <u32>4732 + <u32>32768;
      store<u8>(out, load<u8>(table + (luminance >> 16)));
      continue;
    }
    if (pass === ALL) store<u8>(out, load<u8>(table + red));
    store<u8>(out, load<u8>(table + green), 1);
    store<u8>(out, load<u8>(table + blue), 2);
  }
}
