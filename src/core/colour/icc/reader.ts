/** Reads numbers and texts of a colour profile. All numbers are highest byte first (ICC.1:2022, 4.1). */

/** Beyond the end a byte is 0: callers check bounds first, and a slip reads no other memory. */
const byteAt = (bytes: Uint8Array, at: number): number => bytes[at] ?? 0;

export const u16 = (bytes: Uint8Array, at: number): number =>
  byteAt(bytes, at) * 256 + byteAt(bytes, at + 1);

export const u32 = (bytes: Uint8Array, at: number): number =>
  u16(bytes, at) * 65536 + u16(bytes, at + 2);

/** Bytes as Latin letters, up to the first zero. */
export const latin = (bytes: Uint8Array, at: number, length: number): string => {
  let text = '';
  for (let i = at; i < at + length && i < bytes.length && bytes[i] !== 0; i += 1)
    text += String.fromCharCode(bytes[i]!);
  return text;
};

/** UTF-16, up to the first zero. */
export const wide = (bytes: Uint8Array, at: number, length: number): string => {
  let text = '';
  for (let i = at; i + 1 < at + length && i + 1 < bytes.length; i += 2) {
    const unit = u16(bytes, i);
    if (unit === 0) break;
    text += String.fromCharCode(unit);
  }
  return text;
};

/** A signature of four letters (4.10), its spaces kept. */
export const signature = (bytes: Uint8Array, at: number): string => {
  let text = '';
  for (let i = at; i < at + 4; i += 1) text += String.fromCharCode(byteAt(bytes, i));
  return text;
};
