/** The bytes of files: parts joined, texts and numbers written. */

export const joinBytes = (parts: readonly Uint8Array[]): Uint8Array<ArrayBuffer> => {
  const whole = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
};

/** UTF-8 of a string; a lone surrogate becomes U+FFFD. (TextEncoder is not part of ES2022.) */
export const utf8 = (value: string): number[] => {
  const bytes: number[] = [];
  for (const character of value) {
    const point = character.codePointAt(0)!;
    const code = point >= 0xd800 && point <= 0xdfff ? 0xfffd : point;
    if (code < 0x80) bytes.push(code);
    else if (code < 0x800) bytes.push(0xc0 | (code >> 6), 0x80 | (code & 63));
    else if (code < 0x10000)
      bytes.push(0xe0 | (code >> 12), 0x80 | ((code >> 6) & 63), 0x80 | (code & 63));
    else
      bytes.push(
        0xf0 | (code >> 18),
        0x80 | ((code >> 12) & 63),
        0x80 | ((code >> 6) & 63),
        0x80 | (code & 63),
      );
  }
  return bytes;
};

/** Breaks lines with line feeds only, and replaces other control characters by spaces. */
export const plainText = (value: string): string =>
  value.replace(/\r\n?/g, '\n').replace(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f]/g, ' ');

/** A whole number in 2 or 4 bytes, highest first; negative numbers in two’s complement. */
export const uint16be = (value: number): number[] => [(value >>> 8) & 255, value & 255];
export const uint32be = (value: number): number[] => [
  value >>> 24,
  (value >>> 16) & 255,
  (value >>> 8) & 255,
  value & 255,
];
