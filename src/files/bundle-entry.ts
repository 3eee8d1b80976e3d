/** Reads the content of one entry of a job file, and checks its length and checksum. */
import { Inflate } from 'fflate';
import { crc32 } from '../core/encode/checksum.ts';
import { refuse } from './bundle.ts';
import { restingPage } from './resting-page.ts';
import type { BundleEntry } from './bundle-directory.ts';

export interface ReadCall {
  readonly signal: AbortSignal;
  /** Called with the packed bytes of each piece that was read. */
  readonly read: (bytes: number) => void;
}

/** What is read at once, and what is unpacked at once: deflate makes up to about 1030 times as much of it. */
const PACKED_CHUNK = 65536;
const INFLATED_CHUNK = 4096;
const STORED_CHUNK = 2 ** 20;
/** Unpacked pieces are joined to Blobs of this size, which the browser may keep on disk. */
const PARCEL_BYTES = 8 * 2 ** 20;

/** Thrown when the person stops; never leaves src/files. */
export class StoppedReading extends Error {}

const pieces = async (
  file: Blob,
  { start, packedBytes }: BundleEntry,
  chunk: number,
  name: string,
  { signal, read }: ReadCall,
  take: (bytes: Uint8Array<ArrayBuffer>, last: boolean) => void | Promise<void>,
): Promise<void> => {
  for (let at = 0; at === 0 || at < packedBytes; at += chunk) {
    if (signal.aborted) throw new StoppedReading();
    const length = Math.min(chunk, packedBytes - at);
    const bytes = await file
      .slice(start + at, start + at + length)
      .arrayBuffer()
      .catch(() => {
        throw refuse(name, 'It can no longer be read: it was moved, changed or deleted.');
      });
    if (bytes.byteLength !== length) throw refuse(name, 'It breaks off. Copy it again.');
    await take(new Uint8Array(bytes), at + length >= packedBytes);
    read(length);
  }
};

const damagedEntry = (name: string, path: string) =>
  refuse(
    name,
    `“${path}” in it is damaged: its checksum is not the one it was saved with. Copy the file again from where it was saved.`,
  );

/** Unpacks, and stops at the first byte beyond the stated length. */
const unpack = async (
  file: Blob,
  entry: BundleEntry,
  name: string,
  call: ReadCall,
): Promise<{ readonly content: Blob; readonly crc: number; readonly bytes: number }> => {
  let parts: BlobPart[] = [];
  let [loose, bytes, crc, ended] = [0, 0, 0, false];
  const inflate = new Inflate((data, final) => {
    bytes += data.length;
    if (bytes > entry.bytes) throw new RangeError('more than stated');
    crc = crc32(data, crc);
    // Copied: fflate may use the memory again.
    parts.push(data.slice());
    loose += data.length;
    ended ||= final;
    if (loose >= PARCEL_BYTES) [parts, loose] = [[new Blob(parts)], 0];
  });
  const push = (packed: Uint8Array, last: boolean) => {
    try {
      inflate.push(packed, last);
    } catch {
      throw bytes > entry.bytes
        ? refuse(name, `“${entry.path}” in it unpacks to more than it states.`, 'too-large')
        : damagedEntry(name, entry.path);
    }
  };
  const rest = restingPage();
  await pieces(file, entry, PACKED_CHUNK, name, call, async (chunk, last) => {
    for (let at = 0; at === 0 || at < chunk.length; at += INFLATED_CHUNK) {
      push(chunk.subarray(at, at + INFLATED_CHUNK), last && at + INFLATED_CHUNK >= chunk.length);
      await rest();
      if (call.signal.aborted) throw new StoppedReading();
    }
  });
  return { content: new Blob(parts), crc, bytes: ended ? bytes : -1 };
};

/**
 * The content of an entry. An entry that is stored without compression becomes a slice of the file.
 * @throws StudioError; StoppedReading
 */
export const readEntry = async (
  file: Blob,
  entry: BundleEntry,
  name: string,
  call: ReadCall,
): Promise<Blob> => {
  if (entry.method === 8) {
    const { content, crc, bytes } = await unpack(file, entry, name, call);
    if (bytes !== entry.bytes || crc !== entry.crc) throw damagedEntry(name, entry.path);
    return content;
  }
  let crc = 0;
  await pieces(file, entry, STORED_CHUNK, name, call, (chunk) => {
    crc = crc32(chunk, crc);
  });
  if (crc !== entry.crc) throw damagedEntry(name, entry.path);
  return file.slice(entry.start, entry.start + entry.bytes);
};
