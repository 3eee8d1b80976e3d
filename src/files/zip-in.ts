/**
 * Pictures out of a zip. They are unpacked while the zip is read, so that memory never holds the whole
 * archive. A zip may state wrong sizes, so the bytes are counted; a path inside it is only text to sort
 * and to show.
 */
import type { UnzipDecoder, UnzipDecoderConstructor, UnzipFile } from 'fflate';
import { Inflate, Unzip } from 'fflate';
import { restingPage } from './resting-page.ts';

export interface ZipLimits {
  /** Largest single picture, bytes unpacked. */
  readonly entryBytes: number;
  /** All pictures together, bytes unpacked. */
  readonly totalBytes: number;
  readonly entries: number;
}

/** A gigabyte holds a 16-bit picture of 13 000 × 13 000 pixels; sets over 8 GB can be dropped as files. */
export const zipLimits: ZipLimits = { entryBytes: 2 ** 30, totalBytes: 8 * 2 ** 30, entries: 2000 };

export interface ZipPicture {
  readonly path: string;
  readonly content: Blob;
}

export interface ZipContents {
  readonly pictures: readonly ZipPicture[];
  /** Paths of the files that were not wanted. */
  readonly passedOver: readonly string[];
  /** Wanted files that could not be unpacked; `path` is undefined for the zip as a whole. */
  readonly faults: readonly { readonly path: string | undefined; readonly reason: string }[];
}

/** Bytes read at once, and bytes unpacked at once: deflate makes up to about 1030 times as many of them. */
const SLICE_BYTES = 65536;
const INFLATED_BYTES = 4096;
/** Pieces of a picture are joined to blobs of this size, which the browser may keep on disk. */
const PARCEL_BYTES = 8 * 2 ** 20;

/** Inflates the entries that are wanted and drops the bytes of all others. */
const inflateWanted = (isWanted: (path: string) => boolean): UnzipDecoderConstructor =>
  class implements UnzipDecoder {
    static compression = 8;
    ondata: UnzipDecoder['ondata'] = () => {};
    private inner: Inflate | undefined;

    constructor(path: string) {
      if (isWanted(path)) this.inner = new Inflate((data, final) => this.ondata(null, data, final));
    }

    push(chunk: Uint8Array, final: boolean): void {
      try {
        this.inner?.push(chunk, final);
      } catch (error) {
        this.inner = undefined;
        this.ondata(error as Parameters<typeof this.ondata>[0], new Uint8Array(), true);
      }
    }
  };

const megabytes = (bytes: number): string => `${Math.max(1, Math.round(bytes / 2 ** 20))} MB`;

/** The state of unpacking one archive: pictures so far, faults, whether to go on. */
class Unpacking {
  readonly pictures: ZipPicture[] = [];
  readonly passedOver: string[] = [];
  readonly faults: { path: string | undefined; reason: string }[] = [];
  /** Set when the rest of the archive must not be read. */
  refused = false;
  entriesSeen = 0;
  private open: string | undefined;
  private totalBytes = 0;
  private readonly limits: ZipLimits;
  private readonly isWanted: (path: string) => boolean;

  constructor(isWanted: (path: string) => boolean, limits: ZipLimits) {
    this.isWanted = isWanted;
    this.limits = limits;
  }

  fault(path: string | undefined, reason: string): void {
    this.faults.push({ path, reason });
  }

  private refuse(path: string, reason: string): void {
    this.refused = true;
    this.open = undefined;
    this.fault(path, `${reason} The rest of the zip was not read.`);
  }

  /** The archive ended in the middle, perhaps within a picture. */
  breakOff(): void {
    this.fault(
      this.open,
      'The zip breaks off here: it was cut short or damaged. Copy it again, or add the files themselves.',
    );
  }

  readonly onFile = (entry: UnzipFile): void => {
    this.entriesSeen += 1;
    if (this.refused) return;
    if (this.entriesSeen > this.limits.entries)
      return this.refuse(entry.name, `The zip holds more than ${this.limits.entries} files.`);
    if (!this.isWanted(entry.name)) {
      if (!entry.name.endsWith('/')) this.passedOver.push(entry.name);
      entry.ondata = () => {};
      // fflate keeps the bytes of an entry until it is started.
      if (entry.compression === 0 || entry.compression === 8) entry.start();
      return;
    }
    if (entry.compression !== 0 && entry.compression !== 8)
      return this.fault(
        entry.name,
        'It is packed in a way this studio does not read. Pack the zip again with ordinary compression (deflate), or add the files themselves.',
      );
    this.receive(entry);
    entry.start();
  };

  private receive(entry: UnzipFile): void {
    const { name } = entry;
    const allowed = Math.min(this.limits.entryBytes, entry.originalSize ?? Infinity);
    let parts: BlobPart[] = [];
    let [loose, size, closed] = [0, 0, false];
    this.open = name;
    entry.ondata = (error, data, final) => {
      if (closed || this.refused) return;
      if (error !== null) {
        [closed, this.open] = [true, undefined];
        return this.fault(
          name,
          'It cannot be unpacked: damaged, or locked with a password. Unpack it yourself and add the file.',
        );
      }
      size += data.length;
      this.totalBytes += data.length;
      if (size > allowed)
        return this.refuse(
          name,
          size > this.limits.entryBytes
            ? `It unpacks to more than ${megabytes(this.limits.entryBytes)}.`
            : 'It unpacks to more than the zip declares.',
        );
      if (this.totalBytes > this.limits.totalBytes)
        return this.refuse(
          name,
          `The zip unpacks to more than ${megabytes(this.limits.totalBytes)}.`,
        );
      // Copied: fflate may use the memory again.
      parts.push(data.slice());
      loose += data.length;
      if (loose >= PARCEL_BYTES) [parts, loose] = [[new Blob(parts)], 0];
      if (!final) return;
      [closed, this.open] = [true, undefined];
      if (entry.originalSize !== undefined && size !== entry.originalSize)
        return this.fault(name, 'It unpacks to less than the zip declares: the zip is damaged.');
      this.pictures.push({ path: name, content: new Blob(parts) });
    };
  }
}

/**
 * @param isWanted decides by path alone which entries are unpacked; the others are never inflated.
 * @returns every wanted picture that is whole, and a fault for each that is not. When `signal` fires it
 * stops and returns what it has.
 */
export const picturesInZip = async (
  archive: Blob,
  isWanted: (path: string) => boolean,
  { limits = zipLimits, signal }: { limits?: ZipLimits; signal?: AbortSignal } = {},
): Promise<ZipContents> => {
  const unpacking = new Unpacking(isWanted, limits);
  const unzip = new Unzip(unpacking.onFile);
  unzip.register(inflateWanted(isWanted));
  const rest = restingPage();
  // A function, because `push` sets the field.
  const isRefused = () => unpacking.refused;
  try {
    for (let at = 0; at < archive.size && !isRefused(); at += SLICE_BYTES) {
      if (signal?.aborted === true) return unpacking;
      const slice = new Uint8Array(await archive.slice(at, at + SLICE_BYTES).arrayBuffer());
      for (let from = 0; from < slice.length; from += INFLATED_BYTES) {
        const to = from + INFLATED_BYTES;
        unzip.push(slice.subarray(from, to), at + to >= archive.size);
        if (isRefused()) break;
        await rest();
      }
    }
    if (unpacking.entriesSeen === 0)
      unpacking.fault(undefined, 'It holds no files, or is no zip at all.');
  } catch {
    unpacking.breakOff();
  }
  return unpacking;
};
