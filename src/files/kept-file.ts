/**
 * A woven file on the private disk, in batches of whole bands. Each batch is a file of its own, which the browser puts
 * in place in one go: when the page goes, or the machine, every batch before is whole, and the file goes on after it.
 * Without a private disk the batches lie in memory and last as long as the page.
 *
 * A batch is a 32-bit little-endian length, that many bytes of JSON (`KeptBand` of its bands, in order), their bytes.
 * Head and tail lie in one file of the same form.
 */
import * as v from 'valibot';
import type { Sink } from '../contract/sink.ts';
import type { BandBytes, BandFacts } from '../core/encode/row-writer.ts';
import { factsOf } from '../core/encode/row-writer.ts';
import type { Shelf } from './shelves.ts';

interface KeptBand extends BandFacts {
  readonly rows: number;
}

export interface KeptFile extends Sink {
  readonly begun: readonly KeptBand[];
  writeBand(band: BandBytes, rows: number): Promise<void>;
  /** The bands so far, without head and tail. */
  bands(): Blob;
  /** The whole file; undefined while it is not. */
  file(): Promise<Blob | undefined>;
}

/** Where the batches lie. */
export type KeptPlace = Pick<Shelf, 'put' | 'get'>;

/** A batch is put in place once it has this many bytes, or is this old: what a fault can cost stays below either. */
const BATCH_BYTES = 8 * 2 ** 20;
const BATCH_MS = 1000;

/** Key of head and tail, which are written last: where they are, the file is whole. */
const ENDS = 'ends';

const count = v.pipe(v.number(), v.integer(), v.minValue(0));
const bandsSchema = v.array(
  v.object({
    byteLength: count,
    adler32: count,
    rawLength: count,
    rows: count,
    pieces: v.exactOptional(v.array(count)),
  }),
);

interface Batch {
  readonly bands: readonly KeptBand[];
  readonly bytes: Blob;
}

/** What lies before and after the bands. */
const endsSchema = v.object({ head: count, tail: count });

const wrap = (facts: unknown, bytes: Blob): { whole: Blob; bytesAt: number } => {
  const text = new TextEncoder().encode(JSON.stringify(facts));
  const length = new DataView(new ArrayBuffer(4));
  length.setUint32(0, text.length, true);
  return { whole: new Blob([length, text, bytes]), bytesAt: 4 + text.length };
};

/** Undefined for what is not there, or not whole. @param sizeOf the bytes that must follow */
const unwrap = async <Facts>(
  stored: Blob | undefined,
  read: (facts: unknown) => Facts,
  sizeOf: (facts: Facts) => number,
): Promise<{ facts: Facts; bytes: Blob } | undefined> => {
  if (stored === undefined) return undefined;
  try {
    const length = new DataView(await stored.slice(0, 4).arrayBuffer()).getUint32(0, true);
    const facts = read(JSON.parse(await stored.slice(4, 4 + length).text()));
    const bytes = stored.slice(4 + length);
    return bytes.size === sizeOf(facts) ? { facts, bytes } : undefined;
  } catch {
    return undefined;
  }
};

const readBatches = async (place: KeptPlace): Promise<Batch[]> => {
  const batches: Batch[] = [];
  for (;;) {
    const batch = await unwrap(
      await place.get(String(batches.length)),
      (facts) => v.parse(bandsSchema, facts),
      (bands) => bands.reduce((sum, { byteLength }) => sum + byteLength, 0),
    );
    if (batch === undefined) return batches;
    batches.push({ bands: batch.facts, bytes: batch.bytes });
  }
};

/** Collects bands, and puts them in place a batch at a time while the next ones are woven. */
const createBatching = (place: KeptPlace, batches: Batch[]) => {
  let bands: KeptBand[] = [];
  let parts: Uint8Array<ArrayBuffer>[] = [];
  let bytes = 0;
  let firstAt = 0;
  let underWay: Promise<void> = Promise.resolve();

  const put = async (batch: Batch): Promise<void> => {
    const key = String(batches.length);
    const { whole, bytesAt } = wrap(batch.bands, batch.bytes);
    await place.put(key, whole);
    const stored = await place.get(key);
    if (stored === undefined) throw new Error('What was written is not there.');
    batches.push({ ...batch, bytes: stored.slice(bytesAt) });
  };
  const begin = async (): Promise<void> => {
    await underWay;
    if (bands.length === 0) return;
    underWay = put({ bands, bytes: new Blob(parts) });
    underWay.catch(() => undefined); // It is awaited before the next one, or at the end.
    [bands, parts, bytes] = [[], [], 0];
  };
  return {
    add: async (band: BandBytes, rows: number): Promise<void> => {
      if (bands.length === 0) firstAt = performance.now();
      bands.push({ ...factsOf(band), rows });
      parts.push(band.bytes);
      bytes += band.bytes.length;
      if (bytes >= BATCH_BYTES || performance.now() - firstAt >= BATCH_MS) await begin();
    },
    settle: async (): Promise<void> => {
      await begin();
      await underWay;
    },
  };
};

/**
 * Opens the file with the bands that lie in its place already. The caller must know that they are of this very file.
 * The first write is the file's head, whatever bands there are; what is written after the bands is its tail.
 * Rejects where the place cannot be read or written.
 */
export const openInBatches = async (place: KeptPlace, mimeType: string): Promise<KeptFile> => {
  const batches = await readBatches(place);
  const batching = createBatching(place, batches);
  let head: Uint8Array<ArrayBuffer> | undefined;
  const tail: Uint8Array<ArrayBuffer>[] = [];
  const bands = () => new Blob(batches.map(({ bytes }) => bytes));
  return {
    begun: batches.flatMap((batch) => batch.bands),
    write: async (bytes) => {
      if (head === undefined) head = bytes.slice();
      else tail.push(bytes);
    },
    writeBand: batching.add,
    patch: async (at, bytes) => {
      // TypedArray.set throws a RangeError for what is not in the head.
      head?.set(bytes, at);
    },
    close: async () => {
      await batching.settle();
      const [first, last] = [new Blob(head && [head]), new Blob(tail)];
      await place.put(
        ENDS,
        wrap({ head: first.size, tail: last.size }, new Blob([first, last])).whole,
      );
    },
    abort: batching.settle,
    bands,
    file: async () => {
      const ends = await unwrap(
        await place.get(ENDS),
        (facts) => v.parse(endsSchema, facts),
        ({ head: before, tail: after }) => before + after,
      );
      if (ends === undefined) return undefined;
      const { facts, bytes } = ends;
      const parts = [bytes.slice(0, facts.head), bands(), bytes.slice(facts.head)];
      return new Blob(parts, { type: mimeType });
    },
  };
};
