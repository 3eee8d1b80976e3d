/** A short text that is the same for equal jobs (or parts of one), whatever the order of their fields. */
import { adler32, crc32 } from '../../core/encode/checksum.ts';

const inOrder = (_name: string, value: unknown): unknown =>
  typeof value === 'object' && value !== null && !Array.isArray(value)
    ? Object.fromEntries(Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1)))
    : value;

/** Two checksums and the length: two values never collide by accident. Not for secrets. */
export const digestOf = (value: unknown): string => {
  const bytes = new TextEncoder().encode(JSON.stringify(value, inOrder));
  return [crc32(bytes), adler32(bytes), bytes.length].map((n) => n.toString(36)).join('-');
};
