/** Writes what a block of deflate holds, lowest bit first (RFC 1951, 3.1.1). */
import { distanceCode } from './repeats';

const LENGTHS: usize = 4 * 256;
const DISTANCES: usize = LENGTHS + 4 * 256;

/**
 * Writes the plain bytes and the matches of a block; not its header, nor its end.
 * @param from its first byte
 * @param pairs and `count` of them, as repeats.ts describes
 * @param codes u32[544], each a code from bit 5 up, its width below: of 256 bytes; of 256 match lengths counted from 3,
 *   extra bits included; of 32 distance codes without their extra bits. Codes of bytes and lengths have at most 12 bits
 *   before their extra bits, those of distances 11.
 * @param out the byte where writing goes on, `held` bits of which are written, 0 … 7. Up to 8 bytes beyond the last
 *   that the block needs are overwritten.
 * @returns how many bits were written
 */
export function writeBody(
  from: usize,
  pairs: usize,
  count: u32,
  codes: usize,
  out: usize,
  held: u32,
): u32 {
  const begun = out;
  const written = held;
  let bits: u64 = load<u8>(out) & ((1 << held) - 1);
  const last = pairs + ((<usize>count) << 3);
  for (; pairs < last; pairs += 8) {
    const end = from + load<u32>(pairs);
    for (; from + 4 <= end; from += 4) {
      const four = load<u32>(from);
      const a = load<u32>(codes + ((four & 255) << 2));
      const b = load<u32>(codes + (((four >> 8) & 255) << 2));
      const c = load<u32>(codes + (((four >> 16) & 255) << 2));
      const d = load<u32>(codes + ((four >> 24) << 2));
      bits |= (<u64>(a >> 5)) << held;
      held += a & 31;
      bits |= (<u64>(b >> 5)) << held;
      held += b & 31;
      bits |= (<u64>(c >> 5)) << held;
      held += c & 31;
      bits |= (<u64>(d >> 5)) << held;
      held += d & 31;
      store<u64>(out, bits);
      out += held >> 3;
      bits >>= held & 56;
      held &= 7;
    }
    // Up to three bytes are left. The processor cannot predict how many, so masks take the place of branches.
    const missing = <i32>(from - end);
    const one: i32 = missing >> 31;
    const two: i32 = (missing + 1) >> 31;
    const three: i32 = (missing + 2) >> 31;
    const a = load<u32>(codes + ((<usize>load<u8>(from)) << 2)) & one;
    const b = load<u32>(codes + ((<usize>load<u8>(from, 1)) << 2)) & two;
    const c = load<u32>(codes + ((<usize>load<u8>(from, 2)) << 2)) & three;
    bits |= (<u64>(a >> 5)) << held;
    held += a & 31;
    bits |= (<u64>(b >> 5)) << held;
    held += b & 31;
    bits |= (<u64>(c >> 5)) << held;
    held += c & 31;
    const match = load<u32>(pairs, 4);
    if (match !== 0) {
      const length = load<u32>(codes + ((match & 255) << 2), LENGTHS);
      bits |= (<u64>(length >> 5)) << held;
      held += length & 31;
    }
    store<u64>(out, bits);
    out += held >> 3;
    bits >>= held & 56;
    held &= 7;
    if (match === 0) break;
    const less = (match >> 16) - 1;
    const number = distanceCode(less);
    const code = load<u32>(codes + (number << 2), DISTANCES);
    const width = code & 31;
    // RFC 1951, 3.2.5: no extra bits up to distance 4, then one more with every second code.
    const extra = number < 4 ? 0 : (number >> 1) - 1;
    bits |= (<u64>((code >> 5) | ((less & ((1 << extra) - 1)) << width))) << held;
    held += width + extra;
    store<u64>(out, bits);
    out += held >> 3;
    bits >>= held & 56;
    held &= 7;
    from = end + (match & 255) + 3;
  }
  store<u64>(out, bits);
  return 8 * <u32>(out - begun) + held - written;
}
