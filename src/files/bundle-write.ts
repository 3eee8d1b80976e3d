/** Writes a job with its originals as one zip, a chunk at a time. */
import { Zip, ZipPassThrough } from 'fflate';
import type { Outcome } from '../contract/errors.ts';
import { StudioError, stopped } from '../contract/errors.ts';
import type { Sink } from '../contract/sink.ts';
import { nameInText } from '../core/names/shown.ts';
import type { Job } from '../job/schema/job.ts';
import type { Manifest, Original } from './bundle.ts';
import type { CarriedProfile } from './bundle-profile.ts';
import { listedProfile } from './bundle-profile.ts';
import { BUNDLE_FORMAT, JOB_PATH, MANIFEST_PATH, bundleLimits, inMegabytes } from './bundle.ts';

const CHUNK_BYTES = 2 ** 20;
/** More than the zip needs for each entry: two records of about 150 bytes. */
const RECORD_BYTES = 400;

interface WriteCall {
  readonly signal: AbortSignal;
  /** Bytes of originals written so far and in all. */
  readonly report: (done: number, total: number) => void;
  /** The printer profile that the job uses. */
  readonly profile?: CarriedProfile | undefined;
}

const endingOf = (name: string): string =>
  /\.([a-z0-9]{1,8})$/i.exec(name)?.[1]?.toLowerCase() ?? 'bin';

const listOf = (originals: readonly Original[]): Manifest['originals'] =>
  originals.map(({ id, name, file }, index) => ({
    id,
    path: `originals/${String(index + 1).padStart(4, '0')}.${endingOf(name)}`,
    name,
    bytes: file.size,
  }));

/** Checks the size before writing: a zip beyond the format's limits could be written but not read. */
const checkSize = (originals: readonly Original[], jsonBytes: number): void => {
  const bytes =
    jsonBytes +
    originals.reduce((sum, { file }) => sum + file.size, 0) +
    (originals.length + 2) * RECORD_BYTES;
  const large = originals.find(({ file }) => file.size > bundleLimits.originalBytes);
  if (large !== undefined)
    throw new StudioError(
      'too-large',
      `${nameInText(large.name)} is ${inMegabytes(large.file.size)}; a job file takes pictures of up to ` +
        `${inMegabytes(bundleLimits.originalBytes)} each. Make that frame smaller: the Shoot bench gives the size this lens can show.`,
      large.name,
    );
  if (bytes > bundleLimits.fileBytes || originals.length + 2 > bundleLimits.entries)
    throw new StudioError(
      'too-large',
      `The job with its ${originals.length} pictures takes ${inMegabytes(bytes)}; a job file takes up to ` +
        `${inMegabytes(bundleLimits.fileBytes)} and ${bundleLimits.entries - 2} pictures. Nothing was written. ` +
        'Keep fewer frames, or make them smaller: the Shoot bench gives the size this lens can show.',
    );
};

/** A zip writer that waits for the disk: fflate hands out its bytes faster than a disk takes them. */
const openZip = (sink: Sink) => {
  const waiting: Uint8Array[] = [];
  let byteLength = 0;
  const zip = new Zip((error, bytes) => {
    if (error !== null) throw error;
    waiting.push(bytes);
  });
  const drain = async () => {
    for (const bytes of waiting.splice(0)) {
      byteLength += bytes.length;
      await sink.write(bytes as Uint8Array<ArrayBuffer>);
    }
  };
  return {
    /** Stores without compression: pictures do not shrink, and stored content can be read without unpacking. */
    begin: (path: string): ZipPassThrough => {
      const entry = new ZipPassThrough(path);
      zip.add(entry);
      return entry;
    },
    drain,
    end: async (): Promise<number> => {
      zip.end();
      await drain();
      return byteLength;
    },
  };
};

const bytesOf = async (file: Blob, at: number, name: string): Promise<Uint8Array> => {
  try {
    return new Uint8Array(await file.slice(at, at + CHUNK_BYTES).arrayBuffer());
  } catch {
    throw new StudioError(
      'file-gone',
      `${nameInText(name)} can no longer be read: it was moved, changed or deleted. No job file was written. Remove that frame, or add it again.`,
      name,
    );
  }
};

const write = async (
  sink: Sink,
  job: Job,
  originals: readonly Original[],
  savedAt: Date,
  { signal, report, profile }: WriteCall,
): Promise<Outcome<{ byteLength: number }>> => {
  const listed = listOf(originals);
  const manifest: Manifest = {
    what: 'Tiltloom job',
    format: BUNDLE_FORMAT,
    savedAt: savedAt.toISOString(),
    originals: listed,
    ...(profile && { profiles: [await listedProfile(profile)] }),
  };
  const json = (value: unknown) => new TextEncoder().encode(JSON.stringify(value, null, 2));
  const documents: readonly [string, Uint8Array][] = [
    [MANIFEST_PATH, json(manifest)],
    [JOB_PATH, json(job)],
  ];
  checkSize(
    originals,
    documents.reduce((sum, [, bytes]) => sum + bytes.length, 0),
  );
  const total = originals.reduce((sum, { file }) => sum + file.size, 0);
  const zip = openZip(sink);
  for (const [path, bytes] of documents) zip.begin(path).push(bytes, true);
  let done = 0;
  for (const [index, { file, name }] of originals.entries()) {
    const entry = zip.begin(listed[index]?.path ?? '');
    for (let at = 0; at === 0 || at < file.size; at += CHUNK_BYTES) {
      if (signal.aborted) return stopped;
      const bytes = await bytesOf(file, at, name);
      entry.push(bytes, at + CHUNK_BYTES >= file.size);
      await zip.drain();
      done += bytes.length;
      report(done, total);
    }
  }
  return { done: true, value: { byteLength: await zip.end() } };
};

/**
 * Writes the whole file into the sink and closes it. A stop or a failure aborts the sink, so that nothing half written
 * passes for a whole file.
 * @throws StudioError `too-large` before anything is written; `file-gone`, `no-room`
 */
export const writeBundle = async (
  sink: Sink,
  job: Job,
  originals: readonly Original[],
  savedAt: Date,
  call: WriteCall,
): Promise<Outcome<{ byteLength: number }>> => {
  try {
    const outcome = await write(sink, job, originals, savedAt, call);
    if (outcome.done) await sink.close();
    else await sink.abort();
    return outcome;
  } catch (error) {
    await sink.abort().catch(() => undefined);
    throw error;
  }
};
