/**
 * A fingerprint of a frame’s pixels that finds copies: two 32-bit lanes of multiply-and-rotate hashing (the mixing
 * step is MurmurHash3’s, in the public domain). It guards against chance, not against malice.
 */
const mix = (hash: number, word: number, multiplier: number): number => {
  const turned = Math.imul(word, multiplier);
  const mixed = hash ^ Math.imul((turned << 15) | (turned >>> 17), 0x1b873593);
  return (Math.imul((mixed << 13) | (mixed >>> 19), 5) + 0xe6546b64) | 0;
};

/**
 * @param samples the frame’s samples, any type and layout.
 * @returns 16 hexadecimal digits; equal for equal size and samples.
 */
export const fingerprintOf = (
  widthPx: number,
  heightPx: number,
  samples: ArrayBufferView,
): string => {
  const { buffer, byteOffset, byteLength } = samples;
  let a = mix(0x3c6ef372, widthPx, 0xcc9e2d51);
  let b = mix(0x1f83d9ab, heightPx, 0x85ebca6b);
  const whole = byteLength >> 2;
  // A view where the bytes are aligned to words, otherwise a copy.
  const words =
    byteOffset % 4 === 0
      ? new Uint32Array(buffer, byteOffset, whole)
      : new Uint32Array(buffer.slice(byteOffset, byteOffset + 4 * whole));
  for (let i = 0; i < whole; i += 1) {
    const word = words[i]!;
    a = mix(a, word, 0xcc9e2d51);
    b = mix(b, word, 0x85ebca6b);
  }
  const rest = new Uint8Array(buffer, byteOffset + 4 * whole, byteLength - 4 * whole);
  for (const byte of rest) {
    a = mix(a, byte, 0xcc9e2d51);
    b = mix(b, byte, 0x85ebca6b);
  }
  const hex = (lane: number) => (lane >>> 0).toString(16).padStart(8, '0');
  return hex(a) + hex(b);
};
