/** Reading numbers and names out of file headers. Reads past the end give 0 or a shorter string. */

export const u16be = (b: Uint8Array, at: number): number => ((b[at] ?? 0) << 8) | (b[at + 1] ?? 0);
export const u32be = (b: Uint8Array, at: number): number => u16be(b, at) * 65536 + u16be(b, at + 2);
export const u16le = (b: Uint8Array, at: number): number => (b[at] ?? 0) | ((b[at + 1] ?? 0) << 8);
export const u24le = (b: Uint8Array, at: number): number => u16le(b, at) | ((b[at + 2] ?? 0) << 16);
export const u32le = (b: Uint8Array, at: number): number => u16le(b, at) + u16le(b, at + 2) * 65536;

/** `length` bytes from `at` as Latin-1 text. */
export const ascii = (b: Uint8Array, at: number, length: number): string =>
  String.fromCharCode(...b.subarray(at, at + length));

/** True when the bytes at `at` are exactly `text` (Latin-1). */
export const hasText = (b: Uint8Array, at: number, text: string): boolean =>
  ascii(b, at, text.length) === text;
