/** A short text that is the same for equal jobs, whatever the order of their fields. */
import { adler32, crc32 } from '../../core/encode/checksum.ts';
import type { Job } from '../schema/job.ts';

const inOrder = (_name: string, value: unknown): unknown =>
  typeof value === 'object' && value !== null && !Array.isArray(value)
    ? Object.fromEntries(Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1)))
    : value;

/** Two checksums and the length: two jobs never collide by accident. Not for secrets. */
export const digestOf = (job: Job): string => {
  const bytes = new TextEncoder().encode(JSON.stringify(job, inOrder));
  return [crc32(bytes), adler32(bytes), bytes.length].map((n) => n.toString(36)).join('-');
};
