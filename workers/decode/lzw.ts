/** LZW as TIFF uses it (TIFF 6.0, section 13): codes of 9 to 12 bits, highest bit first, early change. */

const CLEAR = 256;
const END = 257;
const FIRST_FREE = 258;
const TABLE_SIZE = 4096;

/**
 * Decodes one strip or tile. Every table entry is remembered as where in the output its text last stood,
 * so that an entry costs one copy and the table holds no text of its own.
 * @param expectedBytes size of the strip; what a stream holds beyond that is left out
 * @returns `expectedBytes` bytes, or fewer when the stream ends early
 * @throws Error at a code that the table does not hold yet
 */
export const decodeLzw = (source: Uint8Array, expectedBytes: number): Uint8Array<ArrayBuffer> => {
  const out = new Uint8Array(expectedBytes);
  const starts = new Uint32Array(TABLE_SIZE);
  const lengths = new Uint16Array(TABLE_SIZE);
  let next = FIRST_FREE;
  let width = 9;
  let bits = 0;
  let held = 0;
  let length = 0;
  let previousStart = 0;
  let previousLength = 0;
  for (let at = 0; length < expectedBytes;) {
    while (held < width && at < source.length) {
      bits = ((bits << 8) | source[at++]!) & 0xffffff;
      held += 8;
    }
    if (held < width) break;
    held -= width;
    const code = (bits >>> held) & ((1 << width) - 1);
    if (code === END) break;
    if (code === CLEAR) {
      next = FIRST_FREE;
      width = 9;
      previousLength = 0;
      continue;
    }
    const start = length;
    if (code < CLEAR) {
      out[length++] = code;
    } else {
      if (code > next || (code === next && previousLength === 0)) {
        throw new Error(`LZW code ${code} comes before it is defined`);
      }
      // The newest entry is the previous text and the first byte of this one, which may still be unwritten.
      const from = code === next ? previousStart : starts[code]!;
      const count = code === next ? previousLength + 1 : lengths[code]!;
      const end = Math.min(from + count, from + expectedBytes - length);
      for (let i = from; i < end; i += 1) out[length++] = out[i]!;
    }
    if (previousLength > 0 && next < TABLE_SIZE) {
      starts[next] = previousStart;
      lengths[next] = previousLength + 1;
      next += 1;
      // "Early change": one code sooner than the table needs.
      if (next >= (1 << width) - 1 && width < 12) width += 1;
    }
    previousStart = start;
    previousLength = length - start;
  }
  return length === expectedBytes ? out : out.slice(0, length);
};
