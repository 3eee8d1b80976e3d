/** Colours through a table of a device's own numbers: tetrahedral interpolation between its nodes. */

/** Bytes of a node: four numbers of 16 bits, as many as the device has channels and zeros. */
const NODE: usize = 8;

/** Four numbers of the node, each times its share. */
function part(node: usize, share: i32): v128 {
  return i32x4.mul(i32x4.extend_low_i16x8_u(v128.load64_zero(node)), i32x4.splat(share));
}

/**
 * Converts dots: each is a mean of the four corners of the tetrahedron that it lies in, rounded. Seven bytes beyond the
 * table's last node are read, and three beyond the end of `out` written.
 * @param codes u8[dots × 3]: red, green, blue
 * @param dots how many
 * @param places u32[2 × 256]: for each code the number of the node before it, and steps of `whole` from there, 0 … whole
 * @param across nodes along an edge of the table
 * @param whole code steps from node to node
 * @param table u16[across³ × 4], red slowest, blue fastest
 * @param channels of the device, 1 … 4
 * @param out u8[dots × channels]
 */
export function convertDots(
  codes: usize,
  dots: u32,
  places: usize,
  across: u32,
  whole: u32,
  table: usize,
  channels: u32,
  out: usize,
): void {
  const end = codes + 3 * <usize>dots;
  const alongGreen = NODE * across;
  const alongRed = alongGreen * across;
  const far = alongRed + alongGreen + NODE;
  const scale = f32x4.splat(<f32>1 / (<f32>whole * 257));
  const half = f32x4.splat(0.5);
  for (; codes < end; codes += 3, out += channels) {
    const atRed = places + ((<usize>load<u8>(codes)) << 3);
    const atGreen = places + ((<usize>load<u8>(codes, 1)) << 3);
    const atBlue = places + ((<usize>load<u8>(codes, 2)) << 3);
    const near =
      table +
      alongRed * load<u32>(atRed) +
      alongGreen * load<u32>(atGreen) +
      NODE * load<u32>(atBlue);
    const red = load<i32>(atRed, 4);
    const green = load<i32>(atGreen, 4);
    const blue = load<i32>(atBlue, 4);
    // From the near corner to the far one, along the longest share first and the shortest last. Chosen without a
    // branch: which is longest changes from dot to dot. Where two are equal, what lies between them weighs nothing.
    const most = max(max(red, green), blue);
    const least = min(min(red, green), blue);
    const middle = red + green + blue - most - least;
    const first = select(
      alongRed,
      select(alongGreen, NODE, green >= blue),
      i32(red >= green) & i32(red >= blue),
    );
    const last = select(
      NODE,
      select(alongGreen, alongRed, green <= red),
      i32(blue <= green) & i32(blue <= red),
    );
    const sum = i32x4.add(
      i32x4.add(part(near, <i32>whole - most), part(near + first, most - middle)),
      i32x4.add(part(near + far - last, middle - least), part(near + far, least)),
    );
    const codesOut = i32x4.trunc_sat_f32x4_u(
      f32x4.add(f32x4.mul(f32x4.convert_i32x4_u(sum), scale), half),
    );
    const short = i16x8.narrow_i32x4_u(codesOut, codesOut);
    store<u32>(out, i32x4.extract_lane(i8x16.narrow_i16x8_u(short, short), 0));
  }
}
